"""Reminders for a person and a day: what was ordered, what is awaited, whom to call."""
