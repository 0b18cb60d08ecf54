"""What the person, or a carer, was taught, how far they are, and what is still missing."""
