"""Intake: from an open scan to the closed master solid, its teeth and spans."""

from claspwright.arch.model import DentalArch, Jaw, MasterScan, Span, Tooth, patient_right

__all__ = ["DentalArch", "Jaw", "MasterScan", "Span", "Tooth", "patient_right"]
