"""The standard library: text in the language, found as package data."""
