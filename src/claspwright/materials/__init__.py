"""Alloys and polymers as tables, each number with its source."""
