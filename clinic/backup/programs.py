"""PostgreSQL's own programs, asked without a password on the command line."""

import os
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import IO

from django.db import connection
from psycopg import pq

from clinic.bootstrap.postgres import binaries

#: Names the folder of the programs, where neither of ours fits the server.
FOLDER = "POSTGRES_PROGRAMS"
#: Where Debian keeps those of each version.
DEBIAN = "/usr/lib/postgresql/{major}/bin"
_ERROR = "error: "

Line = Callable[[str], object]


class ProgramError(Exception):
    """A program of PostgreSQL ended with an error; the text is its first line about it."""


def environment() -> dict[str, str]:
    """The caller's, with whom to ask and how to sign in: others on the machine see arguments, and
    no environment."""
    names = {one.keyword.decode(): one.envvar for one in pq.Conninfo.get_defaults()}
    asked = connection.get_connection_params()
    said = {"LC_ALL": "C"}
    for keyword, value in asked.items():
        variable = names.get(keyword)
        if variable and value not in (None, ""):
            said[variable.decode()] = str(value)
    return os.environ | said


def run(
    program: str, *arguments: str, line: Line = lambda _: None, into: IO[bytes] | None = None
) -> None:
    """Run to its end. ``line`` gets each line of progress, ``into`` what the program writes.

    Raises ``ProgramError``.
    """
    reason = ""
    with subprocess.Popen(
        [_folder() / program, *arguments],
        stdin=subprocess.DEVNULL,
        stdout=into or subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        env=environment(),
        text=True,
        errors="replace",
    ) as process:
        try:
            for said in process.stderr or ():
                # The first alone: what comes below it may quote a row.
                if _ERROR in said and not reason:
                    reason = said.partition(_ERROR)[2].strip()
                line(said.strip())
        except BaseException:
            process.kill()
            raise
    if process.returncode != 0:
        raise ProgramError(f"{program}: {reason or 'no reason given'}")


def listed(file: Path) -> int:
    """How many things a backup's file holds: what restoring them counts up to."""
    done = subprocess.run(
        [_folder() / "pg_restore", "--list", file], capture_output=True, check=False, text=True
    )
    if done.returncode != 0:
        raise ProgramError("pg_restore: the file is not a backup that it can read")
    return sum(1 for one in done.stdout.splitlines() if one and not one.startswith(";"))


def _folder() -> Path:
    """Those of the server's own version where they are here: older servers do not understand all
    that newer programs ask."""
    if named := os.environ.get(FOLDER):
        return Path(named)
    with connection.cursor() as cursor:
        cursor.execute("SELECT current_setting('server_version_num')::int / 10000")
        debian = Path(DEBIAN.format(major=cursor.fetchone()[0]))
    return debian if (debian / "pg_restore").exists() else binaries()
