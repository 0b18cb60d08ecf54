"""Stage 9: red flags, the last gate, when to come back, when to call."""
