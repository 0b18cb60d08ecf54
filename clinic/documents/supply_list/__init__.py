"""The list to order supplies from, as a paper and as a file."""
