"""The examples in docstrings are true."""

import doctest
import importlib

import pytest


@pytest.mark.parametrize("name", ["clinic.formatting", "clinic.dates", "clinic.patients.search"])
def test_examples(name: str) -> None:
    result = doctest.testmod(importlib.import_module(name))
    assert result.attempted > 0
    assert result.failed == 0
