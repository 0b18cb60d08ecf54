"""Under 16, until rules for children exist: danger signs, whom to ask, and no figure for adults.

The same holds where the age is not known: no age is assumed.
"""
