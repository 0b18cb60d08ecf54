"""What comes out: the plan, and the same as plain data."""
