"""A stoma measured a second time at the same visit, to know the error of measuring."""
