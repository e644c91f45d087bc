"""Dimension rules and their sources, read by components and rules alike."""
