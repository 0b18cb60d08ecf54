"""A database for `python -m pytest` started by hand: what `manage.py test` sets up already."""

import os
from collections.abc import Iterator
from contextlib import ExitStack

import pytest

from clinic.bootstrap.start import embedded_database

held = ExitStack()


@pytest.hookimpl(wrapper=True)
def pytest_load_initial_conftests() -> Iterator[None]:
    """Start the tests' database before pytest-django reads the settings."""
    os.environ["CLINIC_MODE"] = "test"
    if "DATABASE_URL" not in os.environ:
        os.environ["DATABASE_URL"] = held.enter_context(embedded_database(testing=True))
    return (yield)


def pytest_unconfigure() -> None:
    """Stop the database, if it was started here and no one else uses it."""
    held.close()
