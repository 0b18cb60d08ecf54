"""Every write to a visit: keyword-only, atomic, actor named, audited."""
