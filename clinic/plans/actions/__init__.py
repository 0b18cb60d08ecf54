"""Every write to a plan: keyword-only, atomic, actor named, audited."""
