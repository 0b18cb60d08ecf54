"""What may be seen on a photo: pixels in, points out, for a person to check.

No Django, no record, no file: bytes or arrays come in. Nothing found here is a measurement; it is
drawn as a proposal, and only what a person confirmed is measured from.
"""
