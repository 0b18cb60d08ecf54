"""The wear log: reading what is typed, merging what was recorded, the page."""
