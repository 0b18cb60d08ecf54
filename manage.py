#!/usr/bin/env python3
"""Runs the clinic's record: `python3 manage.py demo`, `python3 manage.py test`.

Needs nothing but Python 3.11 or newer: what is missing is set up first, then Django runs.
"""

import os
import sys

if sys.version_info < (3, 11):  # noqa: UP036 - it may well be started with an older one
    sys.exit("This needs Python 3.11 or newer; try python3.11 manage.py, or a later one.")

from clinic.bootstrap.start import prepared


def main() -> None:
    """Prepare, then hand the command line to Django."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "clinic.settings")
    with prepared(sys.argv) as arguments:
        from django.core.management import execute_from_command_line

        execute_from_command_line(arguments)


if __name__ == "__main__":
    main()
