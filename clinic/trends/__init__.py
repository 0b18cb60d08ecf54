"""One stoma over time: series, figure, outcome of each plan, flags."""
