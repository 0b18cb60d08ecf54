"""Work in a forked process: the libraries are loaded once, our own modules each time again."""

from __future__ import annotations

import importlib
import os
import signal
import sys
import time
import traceback
from collections.abc import Callable
from typing import Final

import pytest

#: Slow to import and no part of the planner.
_LIBRARIES: Final = (
    "hypothesis",
    "django.db",
    "django.test",
    "playwright.sync_api",
    "scipy.stats",
    "shapely",
)
#: Plain asserts: rewriting them takes longer than most mutants.
_ARGUMENTS: Final = ("-q", "-x", "--assert=plain", "-p", "no:cacheprovider", "-p", "no:xdist")
TIMED_OUT: Final = -1
PASSED: Final = 0


def load_libraries() -> None:
    """Before the first fork."""
    os.environ.setdefault("DATABASE_URL", "postgresql:///unused")
    sys.dont_write_bytecode = True
    for name in _LIBRARIES:
        importlib.import_module(name)


def run_tests(paths: list[str], plugin: object) -> int:
    """pytest in this process; its exit code."""
    return int(pytest.main([*_ARGUMENTS, *paths], plugins=[plugin]))


def in_child(work: Callable[[], int], limit: float, loud: bool = False) -> int:
    """The exit code of ``work`` in a process of its own, TIMED_OUT after ``limit`` seconds."""
    sys.stdout.flush()
    pid = os.fork()
    if not pid:
        _work(work, loud)
    until = time.monotonic() + limit
    while time.monotonic() < until:
        done, status = os.waitpid(pid, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.01)
    os.kill(pid, signal.SIGKILL)
    os.waitpid(pid, 0)
    return TIMED_OUT


def _work(work: Callable[[], int], loud: bool) -> None:
    code = 70
    try:
        if not loud:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
        code = work()
    except BaseException:
        traceback.print_exc()
        raise
    finally:
        sys.stdout.flush()
        os._exit(code)
