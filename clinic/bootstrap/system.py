"""System libraries: what is missing, installed where that is allowed, else the line to type."""

import ctypes
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import NamedTuple

from clinic.bootstrap.messages import SetupError, say

#: Chromium for programs first: without windows a page costs a fifth of the processor's time.
BROWSERS = ("chromium-headless-shell", "chromium", "chromium-browser")
OS_RELEASE = Path("/etc/os-release")
DEJAVU = (
    Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"),
    Path("/usr/share/fonts/TTF/DejaVuSans.ttf"),
)


class Library(NamedTuple):
    """Something from outside Python: its Debian package and whether it is here. ``instead``: the
    package that will do where no such is offered."""

    package: str
    present: Callable[[], bool]
    instead: str = ""


def loads(name: str) -> Callable[[], bool]:
    """A test of whether the system's loader finds the library of this file name."""

    def present() -> bool:
        try:
            ctypes.CDLL(name)
        except OSError:
            return False
        return True

    return present


def browser() -> str | None:
    """The path of Chromium, which the browser tests drive, or None."""
    return next((path for name in BROWSERS if (path := shutil.which(name))), None)


LIBERATION = (
    Path("/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf"),
    Path("/usr/share/fonts/truetype/liberation2/LiberationSans-Regular.ttf"),
)
#: Arabic: DejaVu Sans has the letters too, wide and heavy; sheets fall back to it.
NOTO_ARABIC = (
    Path("/usr/share/fonts/truetype/noto/NotoSansArabic-Regular.ttf"),
    Path("/usr/share/fonts/noto/NotoSansArabic-Regular.ttf"),
)

PRINTING = (
    Library("libpango-1.0-0", loads("libpango-1.0.so.0")),
    Library("libpangoft2-1.0-0", loads("libpangoft2-1.0.so.0")),
    # Without it a page of PDF takes four times as long.
    Library("libharfbuzz-subset0", loads("libharfbuzz-subset.so.0")),
    Library("fonts-dejavu-core", lambda: any(font.exists() for font in DEJAVU)),
    Library("fonts-liberation", lambda: any(font.exists() for font in LIBERATION)),
    Library("fonts-noto-core", lambda: any(font.exists() for font in NOTO_ARABIC)),
)
TESTING = (
    *PRINTING,
    Library("chromium-headless-shell", lambda: browser() is not None, "chromium"),
    Library("poppler-utils", lambda: shutil.which("pdftotext") is not None),
)


def missing(libraries: Iterable[Library]) -> list[str]:
    """The packages among these that are not here, by the name this system gives them."""
    return [_local_name(library.package) for library in libraries if not library.present()]


def _local_name(package: str) -> str:
    ubuntu = OS_RELEASE.exists() and "\nID=ubuntu\n" in f"\n{OS_RELEASE.read_text()}\n"
    return "chromium-browser" if package.startswith("chromium") and ubuntu else package


def line_to_type(packages: Iterable[str]) -> str:
    """The exact line that installs these packages, for anyone who may type it."""
    if sys.platform == "darwin":
        return "brew install pango poppler && brew install --cask chromium"
    sudo = "" if os.geteuid() == 0 else "sudo "
    return f"{sudo}apt-get update && {sudo}apt-get install -y {' '.join(packages)}"


def install(packages: list[str]) -> bool:
    """Install the packages through apt if this user may; return whether that succeeded."""
    prefix = _permission()
    if prefix is None:
        return False
    say(f"Installing from the system's packages: {', '.join(packages)} …")
    apt = [*prefix, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-q", "-y"]
    return _succeeds([*apt, "update"]) and _succeeds(
        [*apt, "install", "--no-install-recommends", *packages]
    )


def provide(libraries: Iterable[Library]) -> list[str]:
    """Install what is missing where that is allowed; return what is missing still."""
    libraries = tuple(libraries)
    packages = missing(libraries)
    if not packages:
        return packages
    others = missing([one._replace(package=one.instead or one.package) for one in libraries])
    if install(packages) or (others != packages and install(others)):
        return missing(libraries)
    return others


def provide_for_printing() -> None:
    """Provide what PDFs need; without it the demo goes on, and says so."""
    if packages := provide(PRINTING):
        say(f"Sheets cannot be printed until this line is typed: {line_to_type(packages)}")


def provide_for_testing() -> None:
    """Provide what the whole suite needs, or raise SetupError with the line to type."""
    if packages := provide(TESTING):
        raise SetupError(f"The tests need system packages; type: {line_to_type(packages)}")


def _permission() -> list[str] | None:
    """What goes before apt-get so that it runs unasked: nothing, sudo, or None if neither."""
    if shutil.which("apt-get") is None:
        return None
    if os.geteuid() == 0:
        return []
    sudo = ["sudo", "-n"]
    return sudo if shutil.which("sudo") and _succeeds([*sudo, "true"]) else None


def _succeeds(command: list[str]) -> bool:
    finished = subprocess.run(
        command, stdin=subprocess.DEVNULL, capture_output=True, check=False, text=True
    )
    return finished.returncode == 0
