"""How the server does, for those who run it: counts and seconds, nothing of a record."""
