"""The words of the language: one schema, from which everything that knows words is made."""
