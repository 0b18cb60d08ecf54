"""Questions to colleagues, their answers, and alarms of visits nobody signed."""
