"""What rules rest on: sources, dated thresholds, the version of the rules."""
