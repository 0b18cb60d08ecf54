"""No tables of its own: Django tells only apps with models that a migration has ended."""
