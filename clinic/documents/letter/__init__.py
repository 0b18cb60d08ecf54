"""The letter to a colleague."""
