"""The embedded database: shared while used, stopped by the last user, closed to others."""

import os
import stat
from pathlib import Path

import psycopg
import pytest

from clinic.bootstrap.database import running
from clinic.bootstrap.messages import SetupError
from clinic.bootstrap.postgres import Server


def answers(url: str) -> bool:
    """Whether the server behind the address takes a connection."""
    try:
        psycopg.connect(url).close()
    except psycopg.OperationalError:
        return False
    return True


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "db"


def test_it_runs_while_used_and_not_after(home: Path) -> None:
    with running(home, "clinic", throwaway=True) as url:
        assert answers(url)
    assert not answers(url)
    assert not (home / "data" / "postmaster.pid").exists()


def test_it_is_closed_to_other_users_and_to_every_network(home: Path) -> None:
    with running(home, "clinic", throwaway=True) as url, psycopg.connect(url) as connection:
        assert stat.S_IMODE(home.stat().st_mode) == 0o700
        assert connection.execute("SHOW listen_addresses").fetchone() == ("",)


def test_who_leaves_first_does_not_disturb_who_stays(home: Path) -> None:
    with running(home, "one", throwaway=True) as first:
        with running(home, "two", throwaway=True) as second:
            assert answers(second)
        assert answers(first)
    assert not answers(first)


def test_a_worker_forked_from_a_user_does_not_stop_it(home: Path) -> None:
    found_running = Server(home, throwaway=True)
    found_running.claim()
    found_running.start()
    started_by = os.getpid()
    try:
        with running(home, "clinic") as url:
            worker = os.fork()
            if worker == 0:
                raise SystemExit  # leaves the block as a server's worker does
            os.waitpid(worker, 0)
            assert answers(url)
        assert not answers(url)
    finally:
        if os.getpid() != started_by:
            os._exit(0)
        found_running.stop()


def test_what_is_written_stays_unless_it_is_thrown_away(home: Path) -> None:
    with running(home, "clinic") as url, psycopg.connect(url) as connection:
        connection.execute("CREATE TABLE note (text text)")
    with running(home, "clinic") as url, psycopg.connect(url) as connection:
        assert connection.execute("SELECT to_regclass('note')").fetchone() == ("note",)
    with running(home, "clinic", throwaway=True) as url, psycopg.connect(url) as connection:
        assert connection.execute("SELECT to_regclass('note')").fetchone() == (None,)


def test_a_path_too_long_for_a_socket_is_served_from_elsewhere(tmp_path: Path) -> None:
    home = tmp_path / ("long" * 30)
    with running(home, "clinic", throwaway=True) as url:
        assert answers(url)
        assert not list(home.glob(".s.PGSQL.*"))


def test_letters_with_accents_are_letters(home: Path) -> None:
    with running(home, "clinic", throwaway=True) as url, psycopg.connect(url) as connection:
        connection.execute("CREATE EXTENSION pg_trgm")
        found = connection.execute("SELECT lower('Ü'), 'Ünal' % 'Üna'").fetchone()
    assert found == ("ü", True)


def test_what_was_typed_stays_out_of_the_log(home: Path) -> None:
    with running(home, "clinic", throwaway=True) as url, psycopg.connect(url) as connection:
        connection.execute("CREATE TABLE person (name text PRIMARY KEY)")
        connection.execute("INSERT INTO person VALUES ('Invented Ingrid')")
        with pytest.raises(psycopg.errors.UniqueViolation):
            connection.execute("INSERT INTO person VALUES ('Invented Ingrid')")
    log = (home / "log").read_text()
    assert "duplicate key" in log
    assert "Ingrid" not in log


def test_another_users_folder_is_one_sentence(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    home.mkdir()
    owner = home.stat().st_uid
    monkeypatch.setattr("os.geteuid", lambda: owner + 1)
    with pytest.raises(SetupError) as caught:
        Server(home, throwaway=True).claim()
    assert str(caught.value) == (
        f"The folder {home} belongs to another user (number {owner}), who set up first: continue "
        f"as that user, or type: sudo rm -r {home}"
    )


def test_a_folder_of_files_that_are_no_database_is_one_sentence(home: Path) -> None:
    with running(home, "clinic"):
        pass
    (home / "data" / "PG_VERSION").write_text("9\n")
    with (
        pytest.raises(SetupError, match=f"remove the folder {home}\\.$") as caught,
        running(home, "clinic"),
    ):
        pytest.fail("a database of another version was started")
    assert "incompatible" in str(caught.value)
