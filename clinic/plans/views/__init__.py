"""Pages on which a plan stands."""
