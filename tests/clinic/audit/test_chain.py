"""The audit trail is a chain: what was changed, taken out, put in or cut off is found, also when
the tables' owner did it."""

import threading
from collections.abc import Callable
from importlib import import_module
from uuid import uuid4

import pytest
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connection, transaction
from django.test.utils import CaptureQueriesContext

from clinic.audit import chain
from clinic.audit.chain import Kept
from clinic.audit.models import AccessLink, AccessLog
from clinic.audit.record import record, record_each
from clinic.audit.verify import Verified, verify
from tests.factories.patients import PatientFactory

#: A table that anybody may make, and the chain's own function called from there.
OWN = "CREATE TEMP TABLE own (LIKE audit_accesslog)"
OWN_TRIGGER = (
    "CREATE TRIGGER own AFTER INSERT ON own FOR EACH ROW EXECUTE FUNCTION audit_link_at_commit()"
)

#: Takes every entry without a link off the trail.
UNLINKED = "DELETE FROM audit_accesslog WHERE id NOT IN (SELECT entry_id FROM audit_accesslink)"
ENTRY_GONE = (
    "DELETE FROM audit_accesslog "
    "WHERE id = (SELECT entry_id FROM audit_accesslink WHERE number = 3)"
)


def write(rows: int = 1) -> None:
    """Rows as they are committed: the chain is written then."""
    for number in range(rows):
        record(request_or_actor=None, action="viewed", subject="page", detail=f"§{number}")
    connection.check_constraints()


def not_allowed(statement: str) -> None:
    with (
        pytest.raises(DatabaseError, match="permission denied"),
        transaction.atomic(),
        connection.cursor() as cursor,
    ):
        cursor.execute(statement)


def as_owner(*statements: str) -> None:
    """What somebody can do who owns the tables: no trigger and no reference is in the way."""
    with connection.cursor() as cursor:
        cursor.execute("SET LOCAL session_replication_role = replica")
        for statement in statements:
            cursor.execute(statement)
        cursor.execute("SET LOCAL session_replication_role = origin")


def entry(number: int) -> int:
    return AccessLink.objects.get(number=number).entry_id


@pytest.mark.django_db
def test_every_kind_of_row_is_linked_and_holds(monkeypatch: pytest.MonkeyPatch) -> None:
    """Also over several chunks, for each of which there is one query."""
    patients = [PatientFactory(), PatientFactory()]
    record(request_or_actor=None, action="viewed", subject=patients[0], detail="3:a,-\\ Ø 漢 \n")
    record_each(request_or_actor=None, action="listed", subject="x", patients=patients)
    AccessLog.objects.create(actor_id=7, actor_words="", subject_uuid=uuid4(), action="x")
    for address in ("192.0.2.7", "2001:db8::1"):
        AccessLog.objects.create(actor_words="A", action="x", remote_address=address)
    connection.check_constraints()
    assert list(AccessLink.objects.values_list("number", flat=True)) == [1, 2, 3, 4, 5, 6]
    assert [link.entry_id for link in AccessLink.objects.all()] == sorted(
        AccessLog.objects.values_list("id", flat=True)
    )
    whole = Verified(6, AccessLink.objects.get(number=6).hash, "")
    for size, queries in ((2, 5), (4, 3)):  # one a chunk, one after the last, one for the unlinked
        monkeypatch.setattr(chain, "A_CHUNK", size)
        with CaptureQueriesContext(
            connection,
        ) as asked:
            assert verify() == whole
        assert len(asked) == queries


@pytest.mark.django_db
def test_a_text_cannot_pass_into_the_next_column() -> None:
    same = [chain.hash_of(chain.BEGINNING, 1, pair) for pair in (("ab", "c"), ("a", "bc"))]
    same += [chain.hash_of(chain.BEGINNING, 1, pair) for pair in ((None, "-"), ("-", None))]
    assert len(set(same)) == 4


def _changed() -> list[str]:
    return [
        "UPDATE audit_accesslog SET action = 'read' "
        "WHERE id = (SELECT entry_id FROM audit_accesslink WHERE number = 3)"
    ]


def _another_hash() -> list[str]:
    return ["UPDATE audit_accesslink SET hash = repeat('a', 64) WHERE number = 3"]


def _entry_deleted() -> list[str]:
    return [ENTRY_GONE]


def _both_deleted() -> list[str]:
    return [*_entry_deleted(), "DELETE FROM audit_accesslink WHERE number = 3"]


def _numbered_again() -> list[str]:
    later = "UPDATE audit_accesslink SET number = number - 1 WHERE number = {}"
    return [*_both_deleted(), *(later.format(number) for number in (4, 5))]


def _inserted() -> list[str]:
    return [
        "INSERT INTO audit_accesslog (at, actor_words, action, subject_kind, detail) "
        "VALUES (now(), 'A', 'viewed', 'page', '')"
    ]


def _link_deleted() -> list[str]:
    return ["DELETE FROM audit_accesslink WHERE number = 5"]


def _entries_swapped() -> list[str]:
    to = "UPDATE audit_accesslink SET entry_id = {} WHERE number = {}"
    third, fifth = entry(3), entry(5)
    return [to.format(-1, 5), to.format(fifth, 3), to.format(third, 5)]


def _numbers_swapped() -> list[str]:
    to = "UPDATE audit_accesslink SET number = {} WHERE number = {}"
    return [to.format(9, 3), to.format(3, 4), to.format(4, 9)]


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("tamper", "held", "words"),
    [
        (_changed, 2, "changed: row 3 "),
        (_another_hash, 2, "changed: row 3 "),
        (_entry_deleted, 2, "missing: entry "),
        (_both_deleted, 2, "missing: row 3 of the chain is gone; the next one there is row 4"),
        (_numbered_again, 2, "rows before it were taken out"),
        (_inserted, 5, "without a link: 1 of"),
        (_link_deleted, 4, "without a link: 1 of"),
        (_entries_swapped, 2, "out of order: row 3 is"),
        (_numbers_swapped, 2, "out of order: row 3 is"),
    ],
)
def test_what_an_owner_does_is_found(
    tamper: Callable[[], list[str]], held: int, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    write(5)
    as_owner(*tamper())
    with pytest.raises(CommandError) as found:
        call_command("verify_audit")
    assert found.value.returncode == 1
    assert words in str(found.value)
    assert f"Sound up to row {held};" in str(found.value)
    assert "rows hold" not in capsys.readouterr().out


@pytest.mark.django_db
def test_an_end_cut_off_is_found_by_what_was_kept(capsys: pytest.CaptureFixture[str]) -> None:
    write(5)
    call_command("verify_audit")
    told = capsys.readouterr().out
    assert "5 rows hold." in told
    kept = told.rpartition("Last row: ")[2].split()
    write()
    call_command("verify_audit", "--expect", *kept)
    cut = "DELETE FROM audit_accesslink WHERE number >= 5"
    as_owner(cut, UNLINKED)
    call_command("verify_audit")  # all that is left holds
    with pytest.raises(CommandError, match=r"ends with row 4, and row 5, .* is cut off"):
        call_command("verify_audit", "--expect", *kept)
    write()  # the chain goes on, and reaches that number again
    with pytest.raises(CommandError, match="row 5 has another hash than the one kept"):
        call_command("verify_audit", "--expect", *kept)
    with pytest.raises(CommandError, match="number first"):
        call_command("verify_audit", "--expect", *reversed(kept))


@pytest.mark.django_db
def test_rows_from_before_the_chain_get_their_links_in_order() -> None:
    write(3)
    as_owner("DELETE FROM audit_accesslink")
    migration = import_module("clinic.audit.migrations.0002_chain")
    as_owner(migration.ROWS_FROM_BEFORE)
    assert verify().held == 3
    assert [entry(1), entry(2), entry(3)] == list(
        AccessLog.objects.order_by("id").values_list("id", flat=True)
    )
    write()
    assert verify().held == 4
    assert verify().fault == ""


@pytest.mark.django_db
def test_an_empty_trail_holds() -> None:
    assert verify() == Verified(0, chain.BEGINNING, "")
    assert verify(Kept(1, "a" * 64)).fault.startswith("missing: the chain ends with row 0")


@pytest.mark.django_db
def test_what_is_rolled_back_leaves_no_link() -> None:
    with transaction.atomic():
        record(request_or_actor=None, action="viewed", subject="page")
        transaction.set_rollback(True)
    write()
    assert AccessLink.objects.get().number == 1


@pytest.mark.django_db
def test_the_application_writes_entries_and_the_database_links(application_role: str) -> None:
    write(2)
    assert verify().held == 2
    for attempt in (
        "INSERT INTO audit_accesslink SELECT 3, hash, entry_id FROM audit_accesslink",
        "UPDATE audit_accesslink SET number = 3 WHERE number = 2",
        "DELETE FROM audit_accesslink",
        "SELECT audit_add_link(e) FROM audit_accesslog e",
    ):
        not_allowed(attempt)
    with connection.cursor() as cursor:
        cursor.execute(OWN)
    not_allowed(OWN_TRIGGER)


@pytest.mark.django_db
def test_the_links_of_the_trail_alone_are_written() -> None:
    """By the function itself, should somebody come by the right to it."""
    with connection.cursor() as cursor:
        cursor.execute(OWN)
        cursor.execute(OWN_TRIGGER)
        with pytest.raises(DatabaseError, match="Only the audit trail"), transaction.atomic():
            cursor.execute(
                "INSERT INTO own VALUES (9, now(), 1, 'A', 'x', 'page', NULL, NULL, NULL, '')"
            )


@pytest.mark.django_db
@pytest.mark.parametrize(
    "setting", ["pgtrigger.ignore", "clinic.may_truncate", "search_path", "TimeZone", "DateStyle"]
)
def test_no_setting_of_a_session_matters(application_role: str, setting: str) -> None:
    value = {"search_path": "pg_temp", "TimeZone": "Asia/Tokyo", "DateStyle": "German"}
    record(request_or_actor=None, action="viewed", subject="page")
    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT set_config(%s, %s, true)",
            [setting, value.get(setting, "{audit_link_at_commit,append_only}")],
        )
        cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
        cursor.execute("SET LOCAL search_path TO DEFAULT")
    assert verify().held == 1


@pytest.mark.django_db(transaction=True)
def test_two_who_commit_at_once_make_one_chain() -> None:
    together = threading.Barrier(3)
    failed: list[BaseException] = []

    def commit() -> None:
        try:
            together.wait()
            for _ in range(15):
                with transaction.atomic():
                    record(request_or_actor=None, action="viewed", subject="page")
                    record(request_or_actor=None, action="read", subject="page")
        except BaseException as error:
            failed.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=commit) for _ in range(3)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert failed == []
    assert verify().held == 90
    assert verify().fault == ""
