"""Clasp arms as beams."""
