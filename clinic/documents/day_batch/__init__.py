"""The care sheets of one day as one file."""
