"""What the clinic is called, how it is reached and when it is open: the lead keeps it."""
