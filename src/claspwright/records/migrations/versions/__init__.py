"""Migrations of the register, in order."""
