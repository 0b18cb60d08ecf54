"""Pages of the clinic's own error of measuring: a repeat charted, both readings, the estimate."""
