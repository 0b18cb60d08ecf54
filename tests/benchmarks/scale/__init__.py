"""The record at 100,000 people and 1,000,000 visits beside the same record at 1,000 people."""
