"""The case sheet."""
