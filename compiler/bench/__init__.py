"""The order of assembly, told by the text and proved in space."""
