"""The start page: who is due or overdue, what waits for an answer."""
