"""Bad input thrown at every address of the site, as every role: no answer may be 500.

``values`` makes what is typed, ``clinic`` the records it is typed at, ``pages`` reads the forms
that a page shows, ``episode`` sends a few requests that belong together, ``run`` counts.
Each episode follows from the seed and its number alone and is taken back afterwards, so any one can
be repeated alone. ``python -m tests.fuzz --help``.
"""
