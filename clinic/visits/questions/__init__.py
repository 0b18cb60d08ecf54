"""What the visit page asks, in the order the hands work: a file a section."""
