"""What a command needs, and getting it ready before Django reads its settings."""

import os
import signal
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from types import FrameType
from typing import NamedTuple, NoReturn

from clinic.bootstrap import address, database, environment, secret, system
from clinic.bootstrap.messages import SetupError, say

ROOT = Path(__file__).resolve().parents[2]
EMBEDDED = "EMBEDDED_DATABASE"  # set for the command when the database is ours to fill

REFUSALS = {
    "OperationalError": "The database refuses",  # no such user, wrong password, gone away
    "ImproperlyConfigured": "The settings are not complete",
}


class Need(NamedTuple):
    """What one command needs: the mode for the settings, and the pinned packages."""

    mode: str
    packages: str = environment.RUNNING

    @property
    def testing(self) -> bool:
        """Whether the suite's browser, readers and throwaway database are needed."""
        return self.mode == "test"


def need_of(command: str, variables: dict[str, str]) -> Need:
    """Tell what a command needs; raise SetupError if its settings contradict each other."""
    if command == "test":
        return Need("test", environment.TESTING)
    if command == "demo":
        return Need("demo")
    chosen = variables.get("CLINIC_MODE")
    if "DATABASE_URL" in variables:
        return Need(chosen or "production")
    if chosen == "production":
        raise SetupError(
            "Production needs DATABASE_URL: the embedded database is for the demo and the tests."
        )
    return Need(chosen or "demo")


@contextmanager
def prepared(arguments: list[str]) -> Iterator[list[str]]:
    """Set up what the command line needs, and yield it for Django with the database running.

    Leaves the process, with one sentence and an exit code, whenever something stops it.
    """
    command = arguments[1] if len(arguments) > 1 else "help"
    for ending in (signal.SIGINT, signal.SIGTERM):  # a script's background jobs ignore SIGINT
        signal.signal(ending, _interrupt)
    if signal.getsignal(signal.SIGHUP) is not signal.SIG_IGN:  # as nohup sets it
        signal.signal(signal.SIGHUP, _interrupt)
    with _one_sentence(), ExitStack() as held:
        try:
            _set_up(arguments, command, held)
        except OSError as error:
            raise SetupError(f"Setting up stopped: {error}") from error
        # Everything after `test` is pytest's; without the dashes Django would read it.
        yield [*arguments[:2], "--", *arguments[2:]] if command == "test" else arguments


def _set_up(arguments: list[str], command: str, held: ExitStack) -> None:
    if command == "demo":
        address.require_free(address.parse_address((arguments[2:] or [address.DEFAULT])[0]))
    need = need_of(command, dict(os.environ))
    _enter_environment(need, arguments)
    _provide_libraries(need, command)
    held.enter_context(_variables(need, command))


def _enter_environment(need: Need, arguments: list[str]) -> None:
    """Go on in the virtual environment, unless this interpreter has the pinned set already."""
    if not environment.inside(ROOT) and environment.has_pinned_set(ROOT, need.packages):
        return
    python = environment.ensure(ROOT, need.packages)
    if not environment.inside(ROOT):
        os.execv(python, [str(python), *arguments])


def _provide_libraries(need: Need, command: str) -> None:
    if need.testing:
        system.provide_for_testing()
    elif command == "demo":
        system.provide_for_printing()


@contextmanager
def _variables(need: Need, command: str) -> Iterator[None]:
    """Set what the settings read, starting the embedded database if none is named."""
    os.environ["CLINIC_MODE"] = need.mode
    os.environ.setdefault("PGCONNECT_TIMEOUT", str(int(address.ANSWER_WITHIN)))
    if need.mode == "demo" and not os.environ.get("SECRET_KEY"):
        os.environ["SECRET_KEY"] = secret.secret_key(ROOT / ".secret-key")
    if "DATABASE_URL" in os.environ:
        address.parse_database_url(os.environ["DATABASE_URL"])
        if command in {"demo", "test"}:
            address.require_answer(os.environ["DATABASE_URL"])
        yield
        return
    with embedded_database(testing=need.testing) as url:
        os.environ |= {"DATABASE_URL": url, EMBEDDED: "yes"}
        yield


@contextmanager
def embedded_database(*, testing: bool) -> Iterator[str]:
    """Keep the embedded database running: the demo's, or the tests' own, apart from it."""
    if testing:
        # Two runs at once share the server; the number keeps their databases apart.
        name, folder = f"run_{os.getpid()}", ROOT / ".postgres-test"
    else:
        name, folder = "clinic", ROOT / ".postgres"
    with database.running(folder, name, throwaway=testing) as url:
        yield url


@contextmanager
def _one_sentence() -> Iterator[None]:
    """Turn what stops a command into one sentence and an exit code, without a traceback."""
    try:
        yield
    except SetupError as problem:
        _stop(str(problem))
    except KeyboardInterrupt:
        _stop("Stopped.", code=130)
    except Exception as error:
        # Known by their names, because Django cannot be imported before it is installed.
        sentence = REFUSALS.get(type(error).__name__)
        if sentence is None:
            raise
        _stop(f"{sentence}: {' '.join(str(error).split())}")


def _stop(sentence: str, code: int = 1) -> NoReturn:
    say(sentence)
    raise SystemExit(code) from None


def _interrupt(number: int, frame: FrameType | None) -> NoReturn:
    raise KeyboardInterrupt
