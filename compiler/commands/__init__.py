"""The commands a person types; files, clock and terminal come in here only."""
