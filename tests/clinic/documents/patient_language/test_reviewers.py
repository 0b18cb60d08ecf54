"""The setting that names who has read a translation over."""

import os
import subprocess
import sys

import pytest

TOLD = "import clinic.settings; print(clinic.settings.SHEET_REVIEWERS)"


def started(reviewers: str) -> subprocess.CompletedProcess[str]:
    """The settings read in a program of their own, as at start-up."""
    changed = {"SHEET_REVIEWERS": reviewers, "CLINIC_MODE": "test"}
    env = os.environ | {"DATABASE_URL": "postgresql:///unused"} | changed
    command = [sys.executable, "-c", TOLD]
    return subprocess.run(command, env=env, capture_output=True, text=True, check=False)


@pytest.mark.parametrize("wrong", ["es", "fr=Somebody", "es=", "es=A;xx=B"])
def test_what_makes_no_sense_is_refused(wrong: str) -> None:
    ran = started(wrong)
    assert ran.returncode != 0
    assert "SHEET_REVIEWERS is" in ran.stderr


@pytest.mark.parametrize(
    ("given", "read"),
    [
        ("", {}),
        ("es=Rowan Ashgrove; ar = Linden Marsh;", {"es": "Rowan Ashgrove", "ar": "Linden Marsh"}),
    ],
)
def test_one_name_a_language(given: str, read: dict[str, str]) -> None:
    assert started(given).stdout.strip() == str(read)
