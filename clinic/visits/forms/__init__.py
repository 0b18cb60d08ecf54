"""Forms of the visit page."""
