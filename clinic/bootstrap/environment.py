"""The virtual environment: made once, filled from the pins, checked by a stamp afterwards."""

import fcntl
import hashlib
import importlib.metadata
import importlib.util
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from clinic.bootstrap import system
from clinic.bootstrap.messages import SetupError, require_writable, say, show_count

RUNNING = "requirements.txt"
TESTING = "requirements-test.txt"
PIN = re.compile(r"^([A-Za-z0-9._-]+)==([^ ;]+)", re.MULTILINE)


def pins(root: Path, which: str) -> dict[str, str]:
    """Package names and exact versions of one pinned set."""
    return dict(PIN.findall((root / ".pins" / which).read_text(encoding="utf-8")))


def python_of(root: Path) -> Path:
    """The virtual environment's interpreter, whether it is there yet or not."""
    return root / ".venv" / "bin" / "python"


def inside(root: Path) -> bool:
    """Whether this very process runs in the project's virtual environment."""
    return Path(sys.prefix).resolve() == (root / ".venv").resolve()


def has_pinned_set(root: Path, which: str) -> bool:
    """Whether this very process can import exactly the pinned set, wherever it came from."""
    return all(_installed(name) == version for name, version in pins(root, which).items())


def _installed(name: str) -> str | None:
    try:
        return importlib.metadata.version(name)
    except importlib.metadata.PackageNotFoundError:
        return None


def ensure(root: Path, which: str) -> Path:
    """Make the virtual environment hold the pinned set; return its interpreter.

    Raises SetupError if the folder is read-only, if Python lacks what makes virtual
    environments, or if the packages cannot be fetched.
    """
    if not _up_to_date(root, which):
        require_writable(root)
        with _alone(root / ".setup.lock"):
            if not _up_to_date(root, which):
                _fill(root, which)
    return python_of(root)


def _fill(root: Path, which: str) -> None:
    if not (inside(root) and has_pinned_set(root, which)):
        if not _usable(python_of(root)):
            _create(root / ".venv")
        _install(root, which)
    for held in {which, RUNNING}:  # the pins for testing include those for running
        _stamp(root, held).write_text(_fingerprint(root, held), encoding="ascii")


def _up_to_date(root: Path, which: str) -> bool:
    stamp = _stamp(root, which)
    return stamp.exists() and stamp.read_text(encoding="ascii") == _fingerprint(root, which)


def _stamp(root: Path, which: str) -> Path:
    return root / ".venv" / f"installed-{which}"


def _fingerprint(root: Path, which: str) -> str:
    """The pins and the interpreter that is really there: a system upgrade changes either."""
    python = os.path.realpath(python_of(root))
    wanted = (root / ".pins" / which).read_bytes()
    return f"{hashlib.sha256(wanted).hexdigest()} {python if os.access(python, os.X_OK) else ''}"


@contextmanager
def _alone(lock: Path) -> Iterator[None]:
    """Hold the lock, so that two commands started at once do not both install."""
    with lock.open("w") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        yield


def _usable(python: Path) -> bool:
    if not os.access(python, os.X_OK):
        return False
    trial = subprocess.run([python, "-m", "pip", "--version"], capture_output=True, check=False)
    return trial.returncode == 0


def _create(folder: Path) -> None:
    if importlib.util.find_spec("ensurepip") is None:
        _provide_venv()
    say("Making a virtual environment in .venv …")
    made = subprocess.run(
        [sys.executable, "-m", "venv", "--clear", folder],
        capture_output=True,
        check=False,
        text=True,
        umask=0o022,
    )
    if made.returncode != 0:
        reason = (made.stderr or made.stdout).strip().splitlines()[-1:] or ["no reason given"]
        raise SetupError(f"Python could not make a virtual environment: {reason[0]}")


def _provide_venv() -> None:
    """Debian and Ubuntu keep what makes virtual environments in a package of its own."""
    package = f"python{sys.version_info.major}.{sys.version_info.minor}-venv"
    if not system.install([package]):
        raise SetupError(
            "This Python cannot make virtual environments yet; "
            f"type: {system.line_to_type([package])}"
        )


def _install(root: Path, which: str) -> None:
    total = len(pins(root, which))
    say(f"Installing {total} pinned packages; the first time takes a few minutes …")
    command = [
        str(python_of(root)),
        "-m",
        "pip",
        "install",
        "--no-input",
        "--no-deps",
        "--disable-pip-version-check",
        "--require-hashes",
        "--only-binary",
        ":all:",
        "--progress-bar",
        "off",
        "-r",
        str(root / ".pins" / which),
    ]
    done, last_error = 0, "no reason given"
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, umask=0o022
    ) as pip:
        for line in pip.stdout or ():
            if line.startswith(("Collecting ", "Requirement already satisfied: ")):
                done += 1
                show_count(
                    done, total, line.split(": ")[-1].removeprefix("Collecting ").split("==")[0]
                )
            elif line.startswith("Installing collected"):
                say("  all fetched; unpacking …")
            elif line.startswith("ERROR: "):
                last_error = line.removeprefix("ERROR: ").strip()
    if pip.returncode != 0:
        raise SetupError(f"The pinned packages could not be installed: {last_error}")
