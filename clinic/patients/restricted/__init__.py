"""Restricted records: which they are, who has said why, and what stays closed until then."""
