"""Texts read and resolved: from files to a program of declarations."""
