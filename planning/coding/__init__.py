"""Diagnosis codes: which the findings suggest, which may stand together."""
