"""System libraries: installed where that is allowed, else the exact line to type."""

import subprocess
from pathlib import Path

import pytest

from clinic.bootstrap import system
from clinic.bootstrap.messages import SetupError
from clinic.bootstrap.system import Library

HERE = Library("a-font", lambda: True)
NOT_HERE = Library("libpango-1.0-0", lambda: False)
AS_USER = "sudo apt-get update && sudo apt-get install -y libpango-1.0-0"


class Machine:
    """Replaces the system: who asks, what exists, and what was run."""

    def __init__(self, patch: pytest.MonkeyPatch) -> None:
        self.commands: list[list[str]] = []
        self.fails: str | None = None
        self.programs = {"apt-get", "sudo"}
        self.user = 1000
        patch.setattr("os.geteuid", lambda: self.user)
        patch.setattr("shutil.which", lambda name: name if name in self.programs else None)
        patch.setattr("subprocess.run", self.run)

    def run(self, command: list[str], **options: object) -> subprocess.CompletedProcess[str]:
        self.commands.append(command)
        failed = self.fails is not None and self.fails in command
        return subprocess.CompletedProcess(command, 1 if failed else 0, "", "")


@pytest.fixture
def machine(monkeypatch: pytest.MonkeyPatch) -> Machine:
    return Machine(monkeypatch)


def test_nothing_is_installed_when_nothing_is_missing(machine: Machine) -> None:
    assert system.provide([HERE]) == []
    assert machine.commands == []


def test_root_installs_what_is_missing_and_no_more(machine: Machine) -> None:
    machine.user = 0
    system.provide([HERE, NOT_HERE])
    assert [command[-3:] for command in machine.commands] == [
        ["-q", "-y", "update"],
        ["install", "--no-install-recommends", "libpango-1.0-0"],
    ]
    assert all("sudo" not in command for command in machine.commands)


def test_a_user_with_unasked_sudo_installs_through_it(machine: Machine) -> None:
    system.provide([NOT_HERE])
    assert machine.commands[0] == ["sudo", "-n", "true"]
    assert all(command[:2] == ["sudo", "-n"] for command in machine.commands)
    assert machine.commands[-1][-1] == "libpango-1.0-0"


def test_sudo_that_would_ask_is_left_alone(machine: Machine) -> None:
    machine.fails = "true"
    assert system.provide([NOT_HERE]) == ["libpango-1.0-0"]
    assert machine.commands == [["sudo", "-n", "true"]]


def test_what_apt_could_not_install_is_missing_still(machine: Machine) -> None:
    machine.user, machine.fails = 0, "install"
    assert system.provide([HERE, NOT_HERE]) == ["libpango-1.0-0"]


def test_the_demo_goes_on_without_printing_and_says_what_to_type(
    machine: Machine, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    machine.programs.clear()
    monkeypatch.setattr(system, "PRINTING", (HERE, NOT_HERE))
    system.provide_for_printing()
    assert capsys.readouterr().err == (
        f"Sheets cannot be printed until this line is typed: {AS_USER}\n"
    )


def test_the_tests_stop_and_say_what_to_type(
    machine: Machine, monkeypatch: pytest.MonkeyPatch
) -> None:
    machine.programs.clear()
    monkeypatch.setattr(system, "TESTING", (HERE, NOT_HERE))
    with pytest.raises(SetupError) as caught:
        system.provide_for_testing()
    assert str(caught.value) == f"The tests need system packages; type: {AS_USER}"


def test_root_types_the_line_without_sudo(machine: Machine) -> None:
    machine.user = 0
    assert system.line_to_type(["a", "b"]) == "apt-get update && apt-get install -y a b"


def test_chromium_has_another_name_on_ubuntu(
    machine: Machine, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    release = tmp_path / "os-release"
    release.write_text("NAME=Ubuntu\nID=ubuntu\n")
    monkeypatch.setattr(system, "OS_RELEASE", release)
    browser = Library("chromium-headless-shell", lambda: False, "chromium")
    assert system.missing([browser]) == ["chromium-browser"]
    release.write_text("ID=debian\n")
    assert system.missing([browser]) == ["chromium-headless-shell"]


def test_another_package_will_do_where_the_first_is_not_offered(machine: Machine) -> None:
    machine.user, machine.fails = 0, "b-small"
    found = system.provide([Library("b-small", lambda: False, "b"), NOT_HERE])
    assert [command[-2:] for command in machine.commands if "install" in command] == [
        ["b-small", "libpango-1.0-0"],
        ["b", "libpango-1.0-0"],
    ]
    assert found == ["b-small", "libpango-1.0-0"]


def test_a_library_that_does_not_load_is_missing() -> None:
    absent = Library("libabsent", system.loads("libabsent.so.9"))
    assert system.missing([absent]) == ["libabsent"]
