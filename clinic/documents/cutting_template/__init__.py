"""The template to cut an opening by, at true scale."""
