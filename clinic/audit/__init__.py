"""Append-only events: who saw what, who changed what."""
