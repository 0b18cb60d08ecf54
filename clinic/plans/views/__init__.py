"""Pages that show a plan."""
