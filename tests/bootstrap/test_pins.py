"""The pins: complete, hashed, agreeing with each other, naming no package index."""

import re
import tomllib

import pytest

from clinic.bootstrap.environment import RUNNING, TESTING, pins
from clinic.bootstrap.start import ROOT


@pytest.mark.parametrize("which", [RUNNING, TESTING])
def test_every_pinned_package_has_hashes(which: str) -> None:
    text = (ROOT / ".pins" / which).read_text()
    entries = re.split(r"\n(?=[a-z])", text)
    assert len(entries) == len(pins(ROOT, which))
    assert all("--hash=sha256:" in entry for entry in entries)


@pytest.mark.parametrize("which", [RUNNING, TESTING])
def test_no_address_is_recorded(which: str) -> None:
    text = (ROOT / ".pins" / which).read_text()
    assert not re.search(r"://|--(extra-)?index|--find-links|--trusted-host", text)


def test_the_test_set_holds_the_running_set_unchanged() -> None:
    assert pins(ROOT, RUNNING).items() <= pins(ROOT, TESTING).items()


def test_every_direct_dependency_is_pinned() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    names = re.compile(r"^[a-z0-9-]+")
    running = {names.match(line)[0] for line in project["dependencies"]}  # type: ignore[index]
    testing = {
        names.match(line)[0]  # type: ignore[index]
        for line in project["optional-dependencies"]["test"]
    }
    assert running <= pins(ROOT, RUNNING).keys()
    assert testing <= pins(ROOT, TESTING).keys()
