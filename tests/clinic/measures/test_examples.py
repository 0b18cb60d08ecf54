"""The examples in docstrings are true."""

import doctest
import importlib

import pytest


@pytest.mark.parametrize("name", ["export", "small_numbers", "period"])
def test_examples(name: str) -> None:
    result = doctest.testmod(importlib.import_module(f"clinic.measures.{name}"))
    assert result.attempted > 0
    assert result.failed == 0
