"""Who may do what in the database: one role owns the tables, the application has another."""
