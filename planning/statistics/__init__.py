"""Statistics of wear, leaks and measurements; SciPy does the numbers."""
