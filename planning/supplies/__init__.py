"""Stage 5: generic supplies, when each is hazardous, and the choice among all combinations."""
