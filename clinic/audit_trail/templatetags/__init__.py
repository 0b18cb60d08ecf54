"""Template filters of the audit trail."""
