"""The leaf "Living with your stoma": what every day needs, by the kind of stoma."""
