"""Invented arches and cases."""
