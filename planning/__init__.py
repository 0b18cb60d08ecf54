"""Findings in, plan out. Pure: no Django, no input or output, no clock.

Supports and never replaces a licensed clinician's judgement and local policy.
"""
