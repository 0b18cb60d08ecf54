"""What each command needs, and how whatever stops it is said."""

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from clinic.bootstrap import start
from clinic.bootstrap.environment import RUNNING, TESTING
from clinic.bootstrap.messages import SetupError
from clinic.bootstrap.secret import secret_key
from clinic.bootstrap.start import Need, need_of, prepared
from clinic.testing import PytestRunner

URL = {"DATABASE_URL": "postgresql://host/clinic"}


@pytest.mark.parametrize(
    ("command", "variables", "need"),
    [
        ("demo", {}, Need("demo", RUNNING)),
        ("demo", URL, Need("demo", RUNNING)),
        ("test", URL, Need("test", TESTING)),
        ("test", {"CLINIC_MODE": "production"}, Need("test", TESTING)),
        ("migrate", {}, Need("demo", RUNNING)),
        ("migrate", URL, Need("production", RUNNING)),
        ("migrate", {**URL, "CLINIC_MODE": "demo"}, Need("demo", RUNNING)),
    ],
)
def test_a_server_of_ones_own_means_production_except_for_demo_and_test(
    command: str, variables: dict[str, str], need: Need
) -> None:
    assert need_of(command, variables) == need


def test_production_never_falls_back_to_the_embedded_database() -> None:
    with pytest.raises(SetupError, match="Production needs DATABASE_URL"):
        need_of("migrate", {"CLINIC_MODE": "production"})


def test_everything_after_test_reaches_pytest_untouched(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(start, "_set_up", lambda *_: None)
    seen: list[list[str]] = []

    def main(arguments: list[str]) -> int:
        seen.append(arguments)
        return 3

    monkeypatch.setattr("pytest.main", main)
    typed = ["tests/planning", "-k", "clock", "-x", "--version", "--settings"]
    with prepared(["manage.py", "test", *typed]) as arguments:
        assert arguments == ["manage.py", "test", "--", *typed]
        assert PytestRunner().run_tests(arguments[3:]) == 3
    assert seen == [typed]


@pytest.mark.parametrize(
    ("stopped_by", "sentence", "code"),
    [
        (SetupError("No room."), "No room.", 1),
        (KeyboardInterrupt(), "Stopped.", 130),
        (PermissionError(13, "Permission denied", "/x"), "Setting up stopped: ", 1),
    ],
)
def test_what_stops_setting_up_is_one_sentence_and_a_code(
    stopped_by: BaseException,
    sentence: str,
    code: int,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    def set_up(*_: object) -> None:
        raise stopped_by

    monkeypatch.setattr(start, "_set_up", set_up)
    with pytest.raises(SystemExit) as caught, prepared(["manage.py", "demo"]):
        pytest.fail("went on")
    assert caught.value.code == code
    said = capsys.readouterr().err
    assert said.startswith(sentence)
    assert said.count("\n") == 1


def test_a_fault_of_the_program_keeps_its_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(start, "_set_up", lambda *_: None)
    with pytest.raises(ZeroDivisionError), prepared(["manage.py", "migrate"]):
        _ = 1 / 0


def test_the_secret_key_is_made_once_and_read_by_its_owner_only(tmp_path: Path) -> None:
    file = tmp_path / ".secret-key"
    key = secret_key(file)
    assert len(key) > 50
    assert secret_key(file) == key
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


@pytest.mark.parametrize(
    ("arguments", "variables", "sentence"),
    [
        (["demo", "nonsense"], {}, "is not an address to serve on"),
        (["demo", "0"], {"DATABASE_URL": "mysql://x/y"}, "is not an address"),
        (["migrate"], {"DATABASE_URL": "mysql://x/y"}, "does not name a PostgreSQL server"),
        (["migrate"], {"CLINIC_MODE": "production"}, "Production needs DATABASE_URL"),
    ],
)
def test_the_real_command_says_one_sentence_and_fails(
    arguments: list[str], variables: dict[str, str], sentence: str
) -> None:
    inherited = {
        name: value
        for name, value in os.environ.items()
        if name not in {"DATABASE_URL", "CLINIC_MODE", "SECRET_KEY"}
    }
    done = subprocess.run(
        [sys.executable, "manage.py", *arguments],
        cwd=start.ROOT, env=inherited | variables, capture_output=True, check=False, text=True,
    )  # fmt: skip
    assert done.returncode == 1
    assert sentence in done.stderr
    assert done.stderr.count("\n") == 1
