"""Rows in words."""
