"""Checks that need a finished design, one rule a function."""
