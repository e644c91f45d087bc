"""Results to documents and pictures."""
