"""The room as measured, and what stands in its runs: from a program to placed units."""
