"""Reading a typed or pasted wear diary. Pure: no rows, no clock; ``today`` is passed in."""
