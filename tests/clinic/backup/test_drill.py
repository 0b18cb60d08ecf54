"""The drill: a small record backed up, restored elsewhere and compared; then spoiled, and the
spoiling found."""

import json
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import psycopg
import pytest
from django.core.management import CommandError, call_command
from django.db import ProgrammingError, connection
from psycopg import sql

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.audit.record import record
from clinic.backup import programs
from clinic.backup.manifest import Manifest, beside, sha256_of
from clinic.database import rights
from clinic.documents.models import PrintedDocument, StoredFile
from clinic.visits.models import Photo, Visit
from tests.clinic.documents.made_papers import printed_paper
from tests.clinic.plans.signed_visits import accept, sign
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory, PhotoFactory

RESTORED = f"restored_{os.getpid()}"
GROUP = rights.group_of(RESTORED)


def on_server(*statements: str) -> None:
    """As the server's owner, outside any transaction."""
    asked = connection.get_connection_params()
    given = {name: value for name, value in asked.items() if name in {"host", "port", "user"}}
    with psycopg.connect(**given, dbname="postgres", autocommit=True) as server:
        for statement in statements:
            server.execute(sql.SQL(statement))


@contextmanager
def working_in(database: str) -> Iterator[None]:
    """As if ``DATABASE_URL`` named this one."""
    before = connection.settings_dict["NAME"]
    connection.close()
    connection.settings_dict["NAME"] = database
    try:
        yield
    finally:
        connection.close()
        connection.settings_dict["NAME"] = before


@pytest.fixture
def empty() -> Iterator[str]:
    """An empty database, and the application's role in it."""
    on_server(f"CREATE DATABASE {RESTORED}", f"CREATE ROLE {GROUP} NOLOGIN")
    yield RESTORED
    on_server(f"DROP DATABASE {RESTORED} WITH (FORCE)", f"DROP ROLE {GROUP}")


@pytest.fixture
def small_record(transactional_db: None) -> Visit:
    """A signed visit with a photo and a printed paper, and what was done on the trail."""
    assessment = AssessmentFactory(leaking=True)
    PhotoFactory(assessment=assessment)
    accept(assessment)
    sign(assessment)
    printed_paper(assessment)
    record(
        request_or_actor=UserFactory.create(role=Role.LEAD),
        action="viewed",
        subject=assessment.visit,
    )
    return assessment.visit


#: What somebody with the owner's rights may spoil -> what the check says of it.
SPOILED = {
    "ALTER TABLE visits_visit DISABLE TRIGGER USER;"
    "UPDATE visits_visit SET note = note || ' ';"
    "ALTER TABLE visits_visit ENABLE TRIGGER USER": (
        "visits_visit: as many rows as in the backup, but not the same ones"
    ),
    "ALTER TABLE visits_photoevent DISABLE TRIGGER USER;"
    "DELETE FROM visits_photoevent;"
    "ALTER TABLE visits_photoevent ENABLE TRIGGER USER": (
        "visits_photoevent: 0 rows, in the backup 1"
    ),
    "ALTER TABLE visits_photo DISABLE TRIGGER ALL": (
        "visits_photo: a row that is final can be changed"
    ),
    "ALTER TABLE plans_plansnapshot DISABLE TRIGGER USER": (
        "plans_plansnapshot: a row that is final can be changed"
    ),
    "ALTER TABLE visits_assessment DISABLE TRIGGER ALL": "visits_assessment: {} switched off",
    "DO $$ DECLARE named name; BEGIN SELECT p.proname INTO named FROM pg_trigger t "
    "JOIN pg_proc p ON p.oid = t.tgfoid WHERE t.tgrelid = 'audit_accesslog'::regclass "
    "AND t.tgname LIKE '%append_only%'; EXECUTE format('CREATE OR REPLACE FUNCTION "
    "public.%I() RETURNS trigger LANGUAGE plpgsql AS $f$BEGIN RETURN NEW; END$f$', named); "
    "END $$": " on audit_accesslog: changed",
    "ALTER TABLE visits_photo DROP CONSTRAINT photo_not_empty": (
        "constraint photo_not_empty on visits_photo: missing"
    ),
    "CREATE TABLE notes (id int PRIMARY KEY)": "notes: not in the backup",
    "ALTER TABLE documents_storedfile DISABLE TRIGGER USER;"
    "UPDATE documents_storedfile SET pdf = 'other'": (
        "documents_storedfile: 1 papers are not what their hash says"
    ),
    "SELECT setval(pg_get_serial_sequence('visits_visit', 'id'), max(id), false) "
    "FROM visits_visit": "visits_visit: the next number of id is in use already",
    "ALTER TABLE audit_accesslink DISABLE TRIGGER USER;"
    "ALTER TABLE audit_accesslog DISABLE TRIGGER USER;"
    "DELETE FROM audit_accesslink WHERE number = (SELECT max(number) FROM audit_accesslink);"
    "DELETE FROM audit_accesslog e WHERE NOT EXISTS (SELECT FROM audit_accesslink l "
    "WHERE l.entry_id = e.id)": "whose hash was kept, is cut off",
}


def refusal(command: str, file: Path) -> str:
    """What the command says when it refuses or fails."""
    with pytest.raises(CommandError) as caught:
        call_command(command, str(file))
    return str(caught.value)


def test_the_drill(
    small_record: Visit, empty: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "monday.backup"
    call_command("backup", str(file))
    made = json.loads(beside(file).read_text())
    assert sorted(one.name for one in tmp_path.iterdir()) == [file.name, beside(file).name]
    assert {stat.S_IMODE(one.stat().st_mode) for one in tmp_path.iterdir()} == {0o600}
    assert made["tables"]["visits_photo"]["rows"] == 1
    assert made["audit_row"] == AccessLog.objects.count() > 0
    assert "is there already" in refusal("backup", file)
    # Into a database that holds something, nothing goes.
    assert "so that nothing is written over" in refusal("restore", file)
    photo, paper = bytes(Photo.objects.get().image), bytes(StoredFile.objects.get().pdf)
    with working_in(empty):
        call_command("restore", str(file))
        said = capsys.readouterr().out
        assert f"this is the backup of {made['made_at']}" in said
        assert "1 stored papers are what their hash says" in said
        assert "The application's role has its rights." in said
        assert bytes(Photo.objects.get().image) == photo
        assert bytes(PrintedDocument.objects.get().file.pdf) == paper
        with connection.cursor() as cursor:
            cursor.execute(f"SET ROLE {GROUP}")
            cursor.execute("SELECT count(*) FROM visits_visit")
            assert cursor.fetchone() == (1,)
            with pytest.raises(ProgrammingError, match="permission denied"):
                cursor.execute("DELETE FROM audit_accesslog")
            cursor.execute("RESET ROLE")
            for statement in SPOILED:
                cursor.execute(statement)
        faults = refusal("check_backup", file)
        for fault in SPOILED.values():
            assert all(part in faults for part in fault.split("{}")), (fault, faults)
        assert "do not work in it" in faults


def manifest(file: Path, **other: Any) -> Manifest:
    """Of a file that some program wrote."""
    values: dict[str, Any] = {
        "made_at": "2026-03-02", "version": "9", "rule_set": "", "server": "", "migrations": [],
        "file_bytes": file.stat().st_size, "file_sha256": sha256_of(file), "left_out": [],
        "tables": {}, "guards": {}, "audit_row": 0, "audit_hash": "",
    }  # fmt: skip
    return Manifest(**values | other)


def test_a_backup_that_is_not_whole_is_refused(
    transactional_db: None, empty: str, tmp_path: Path
) -> None:
    file = tmp_path / "monday.backup"
    with working_in(empty):
        assert "There is no file" in refusal("restore", file)
        file.write_bytes(b"PGDMP")
        assert "nothing shows that the backup is whole" in refusal("restore", file)
        beside(file).write_text("[]")
        assert "is not a backup's manifest" in refusal("restore", file)
        beside(file).write_text(manifest(file).to_text())
        file.write_bytes(b"PGDMQ")
        assert "cut off or changed" in refusal("restore", file)
        made = manifest(file, migrations=["visits.0999_of_next_year"])
        beside(file).write_text(made.to_text())
        assert "made by a newer version (9)" in refusal("restore", file)
        beside(file).write_text(manifest(file).to_text())
        assert "the database is still empty" in refusal("restore", file)


def test_only_the_owner_makes_backups(application_role: str, tmp_path: Path) -> None:
    assert "role that owns the tables" in refusal("backup", tmp_path / "monday.backup")
    assert not list(tmp_path.iterdir())


def test_a_failed_backup_leaves_nothing(
    transactional_db: None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(programs.FOLDER, str(tmp_path / "bin"))
    (tmp_path / "bin").mkdir()
    program = tmp_path / "bin" / "pg_dump"
    program.write_text(
        "#!/bin/sh\necho half\necho 'pg_dump: error: disk is full' >&2\n"
        "echo 'DETAIL: Invented Ingrid' >&2\nexit 1\n"
    )
    program.chmod(0o755)
    said = refusal("backup", tmp_path / "monday.backup")
    assert said == "No backup was made. pg_dump: disk is full"
    assert [one.name for one in tmp_path.iterdir()] == ["bin"]


#: A program is asked in its environment, whatever DATABASE_URL holds.
ASKED = {
    "PGHOST": ("host", "one,two"),
    "PGPORT": ("port", "5432,5433"),
    "PGUSER": ("user", "owner"),
    "PGPASSWORD": ("password", "hush"),
    "PGDATABASE": ("dbname", "record"),
    "PGSSLMODE": ("sslmode", "require"),
    "PGTARGETSESSIONATTRS": ("target_session_attrs", "read-write"),
}


def test_no_password_is_on_a_command_line(
    transactional_db: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    connection.ensure_connection()
    monkeypatch.setattr(connection, "get_connection_params", lambda: dict(ASKED.values()))
    started: list[Any] = []

    def start(command: list[Any], *, env: dict[str, str], **_: Any) -> Any:
        started.append((" ".join(map(str, command)), env))
        raise FileNotFoundError

    monkeypatch.setattr("clinic.backup.programs.subprocess.Popen", start)
    with pytest.raises(FileNotFoundError):
        programs.run("pg_dump", "--verbose")
    ((command, environment),) = started
    assert {name: environment.get(name) for name in ASKED} == {
        name: value for name, (_, value) in ASKED.items()
    }
    assert "hush" not in command
