"""The visit page: form, plan beside it, decisions, conflicts, photos measured, signing."""
