"""What comes in: the findings, the clock face, and checks of both."""
