"""When each stoma is seen again, why then, and every time the day was moved."""
