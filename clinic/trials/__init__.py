"""Trials from before this record, typed in: what was tried, when, the outcome, why it ended."""
