"""Template tags about patients."""
