"""Figures of the whole clinic, for its lead."""
