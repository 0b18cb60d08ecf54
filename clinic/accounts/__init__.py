"""Users, roles, permissions and sign-in."""
