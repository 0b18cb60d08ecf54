"""The virtual environment: made once, then left alone until the pins or Python change."""

import sys
from pathlib import Path

import pytest

from clinic.bootstrap import environment
from clinic.bootstrap.environment import RUNNING, TESTING
from clinic.bootstrap.messages import SetupError


class Steps(list[str]):
    """What setting up did, in order, instead of doing it."""


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A project with pins and nothing set up."""
    (tmp_path / ".pins").mkdir()
    (tmp_path / ".pins" / RUNNING).write_text("django==5.2 \\\n    --hash=sha256:0\n")
    (tmp_path / ".pins" / TESTING).write_text("django==5.2 \\\n    --hash=sha256:0\n")
    return tmp_path


@pytest.fixture
def steps(root: Path, monkeypatch: pytest.MonkeyPatch) -> Steps:
    done = Steps()

    def create(folder: Path) -> None:
        done.append("create")
        (folder / "bin").mkdir(parents=True, exist_ok=True)
        (folder / "bin" / "python").symlink_to(sys.executable)

    monkeypatch.setattr(environment, "_create", create)
    monkeypatch.setattr(environment, "_install", lambda _, which: done.append(f"install {which}"))
    return done


def test_the_first_start_makes_and_fills_it(root: Path, steps: Steps) -> None:
    assert environment.ensure(root, RUNNING) == root / ".venv" / "bin" / "python"
    assert steps == ["create", f"install {RUNNING}"]


def test_the_second_start_does_nothing(root: Path, steps: Steps) -> None:
    environment.ensure(root, RUNNING)
    steps.clear()
    environment.ensure(root, RUNNING)
    assert steps == []


def test_what_the_tests_need_includes_what_the_demo_needs(root: Path, steps: Steps) -> None:
    environment.ensure(root, TESTING)
    steps.clear()
    environment.ensure(root, RUNNING)
    assert steps == []


def test_changed_pins_are_installed_into_the_same_environment(root: Path, steps: Steps) -> None:
    environment.ensure(root, RUNNING)
    steps.clear()
    (root / ".pins" / RUNNING).write_text("django==5.3 \\\n    --hash=sha256:1\n")
    environment.ensure(root, RUNNING)
    assert steps == [f"install {RUNNING}"]


def test_a_python_that_has_gone_is_replaced(root: Path, steps: Steps) -> None:
    environment.ensure(root, RUNNING)
    steps.clear()
    python = environment.python_of(root)
    python.unlink()
    environment.ensure(root, RUNNING)
    assert steps == ["create", f"install {RUNNING}"]


def test_a_failed_installation_is_tried_again(
    root: Path, steps: Steps, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(root: Path, which: str) -> None:
        raise SetupError("no network")

    with monkeypatch.context() as patch:
        patch.setattr(environment, "_install", fail)
        with pytest.raises(SetupError, match="no network"):
            environment.ensure(root, RUNNING)
    environment.ensure(root, RUNNING)
    assert steps[-1] == f"install {RUNNING}"


def test_a_read_only_folder_is_one_sentence(
    root: Path, steps: Steps, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("os.access", lambda path, mode: False)  # root may write anywhere
    with pytest.raises(SetupError) as caught:
        environment.ensure(root, RUNNING)
    assert str(caught.value) == (
        f"The folder {root} is read-only for this user, so nothing can be set up in it: "
        "copy it to a folder of your own and start it there."
    )
    assert steps == []


def test_a_python_without_venv_names_the_line_to_type(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    version = f"{sys.version_info.major}.{sys.version_info.minor}"
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    monkeypatch.setattr(environment.system, "install", lambda packages: False)
    monkeypatch.setattr("os.geteuid", lambda: 1000)
    with pytest.raises(SetupError) as caught:
        environment.ensure(root, RUNNING)
    assert str(caught.value) == (
        "This Python cannot make virtual environments yet; type: sudo apt-get update && "
        f"sudo apt-get install -y python{version}-venv"
    )


def test_packages_that_cannot_be_fetched_are_one_sentence(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pip = root / ".venv" / "bin" / "python"
    pip.parent.mkdir(parents=True)
    pip.write_text("#!/bin/sh\necho Collecting django==5.2\necho ERROR: no network; exit 1\n")
    pip.chmod(0o755)
    monkeypatch.setattr(environment, "_usable", lambda python: True)
    with pytest.raises(SetupError) as caught:
        environment.ensure(root, RUNNING)
    assert str(caught.value) == "The pinned packages could not be installed: no network"


def test_only_the_exact_versions_count_as_the_pinned_set(root: Path) -> None:
    (root / ".pins" / RUNNING).write_text(f"pytest=={pytest.__version__} \\\n")
    assert environment.has_pinned_set(root, RUNNING)
    (root / ".pins" / RUNNING).write_text("pytest==0.1 \\\n")
    assert not environment.has_pinned_set(root, RUNNING)
