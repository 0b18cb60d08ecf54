"""Pages and posts of a visit that need no plan."""
