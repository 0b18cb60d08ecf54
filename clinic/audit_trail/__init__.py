"""The page of the access log, for the clinic lead."""
