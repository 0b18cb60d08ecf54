"""Diagnosis codes: which the findings suggest, which may be combined."""
