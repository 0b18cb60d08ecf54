"""A patient's record on one page: danger, what is worn, the course, what is next, the visits."""
