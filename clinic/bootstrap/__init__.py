"""Sets up what the clinic's record needs, with the standard library alone.

`start` decides what a command needs; `environment` makes the virtual environment, `system`
the system libraries, `database` the embedded PostgreSQL; `address` and `secret` look after
the settings that come from outside. Anything that stops it is explained in one sentence.
"""
