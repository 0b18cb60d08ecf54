"""The whole record in one file, put back into an empty database, and compared row by row.

Everything to keep is in the database: photos and papers too. ``programs`` runs PostgreSQL's own
pg_dump and pg_restore, ``contents`` counts and sums up what a database holds, ``manifest`` is that
beside the file, ``make`` writes both, ``restore`` reads them back, ``check`` compares.
"""
