"""Trials from before this record, typed in: what was tried, when, how it did, why it ended."""
