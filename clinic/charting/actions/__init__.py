"""Writes of the visit page that no single app below owns."""
