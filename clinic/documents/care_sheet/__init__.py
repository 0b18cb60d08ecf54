"""The sheet a patient takes home."""
