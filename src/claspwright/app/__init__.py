"""Use cases, one a file."""
