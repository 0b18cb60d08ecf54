"""The clinic served by a process of its own, which a test can kill and start again."""

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from contextlib import suppress
from urllib.error import URLError
from urllib.parse import urlsplit

WITHIN = 30.0  # seconds to answer for the first time


def free_port() -> int:
    """A port of this machine that no one listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def address_of(database: str) -> str:
    """``DATABASE_URL``, but naming the database that Django made for the tests beside it."""
    return urlsplit(os.environ["DATABASE_URL"])._replace(path=f"/{database}").geturl()


class OwnServer:
    """gunicorn on one port for as long as the test lives; between ``kill`` and ``start``, none."""

    def __init__(self, database: str) -> None:
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self.environment = {**os.environ, "CLINIC_MODE": "test", "DATABASE_URL": database}
        self.process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Serve, and return once it answers."""
        command = [sys.executable, "-m", "gunicorn", "clinic.wsgi", "--bind"]
        options = [f"127.0.0.1:{self.port}", "--threads", "4", "--no-control-socket"]
        quiet = subprocess.DEVNULL
        self.process = subprocess.Popen(
            [*command, *options],
            env=self.environment,
            stdout=quiet,
            stderr=quiet,
            start_new_session=True,  # so that its workers can be killed with it
        )
        until = time.monotonic() + WITHIN
        while not self._answers():
            assert time.monotonic() < until, "the server did not start"
            time.sleep(0.1)

    def _answers(self) -> bool:
        # A busy machine may take longer than one request waits: then it is asked again.
        with suppress(URLError, ConnectionError, TimeoutError):
            urllib.request.urlopen(f"{self.url}/sign-in/", timeout=5).close()  # noqa: S310
            return True
        return False

    def kill(self) -> None:
        """Gone at once, in the middle of things, with its workers: as in a power cut."""
        if self.process is None:
            return
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()
        self.process = None
