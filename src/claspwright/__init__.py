"""Claspwright: metal partial-denture frameworks, from arch scan to print-ready solid."""

__version__ = "0.1.0"
