"""Do the tests notice a broken rule? One node of the planner changed at a time, never on disk."""
