"""Bad input thrown at every address, in a database of its own.

    .venv/bin/python -m tests.fuzz --requests 10000 --seed 1
    .venv/bin/python -m tests.fuzz --requests 10000 --seed 1 --only 312

Prints how many answers had which status and every 5xx with how to repeat it; then the exit code is
1. ``--only`` plays one episode and prints its requests and what broke; ``--requests`` is then the
same as before, as the values are made for it.
"""

from __future__ import annotations

import os
import sys
from argparse import ArgumentParser


def main() -> int:
    """Sets up, runs, prints."""
    asked = ArgumentParser(description="Throw bad input at every address.")
    asked.add_argument("--requests", type=int, default=10_000)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--only", type=int)
    given = asked.parse_args()
    os.environ["CLINIC_MODE"] = "test"
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "clinic.settings")
    from clinic.bootstrap.start import embedded_database

    with embedded_database(testing=True) as url:
        os.environ["DATABASE_URL"] = url
        import django

        django.setup()
        from django.db import connection
        from django.test.utils import setup_databases, setup_test_environment, teardown_databases

        from tests import kept_tables

        setup_test_environment()
        with kept_tables.template(connection.settings_dict):
            old = setup_databases(verbosity=0, interactive=False)
        kept_tables.keep(connection.settings_dict)
        try:
            from tests.fuzz.run import clinic_of, run

            outcome = run(
                clinic_of(given.seed),
                seed=given.seed,
                requests=given.requests,
                only=given.only,
                show=given.only is not None,
            )
        finally:
            teardown_databases(old, verbosity=0)
    print("\n".join(outcome.lines()))
    return 1 if outcome.faults else 0


if __name__ == "__main__":
    sys.exit(main())
