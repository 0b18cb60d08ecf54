"""Template filters of the whole project."""
