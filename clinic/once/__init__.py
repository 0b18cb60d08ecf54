"""A form sent twice is carried out once."""
