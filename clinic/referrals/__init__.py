"""Questions to colleagues, their answers, and alarms of visits no one signed."""
