"""Makes the clinic that is measured: the invented one, thickened and multiplied.

First every signed visit is repeated ``THICKER`` times, each some months before, so that a person
has about ten; then every person is copied until there are enough, each with a name of its own.
"""

from __future__ import annotations

import time

from django.core.management import call_command
from django.db import connection, transaction

from tests.benchmarks.scale.copies import copy, restart
from tests.benchmarks.scale.names import FAMILY, GIVEN
from tests.benchmarks.scale.tables import Table, record_tables

THICKER = 3
#: Between a visit and its copy before it.
_EARLIER = "k * interval '400 days'"
#: Rows that only a draft has.
_DRAFTS_ONLY = {"visits_pendingentry", "visits_conflictcopy"}


def people() -> int:
    """How many patients there are."""
    return _number("SELECT count(*) FROM patients_patient")


def visits() -> int:
    """How many visits there are."""
    return _number("SELECT count(*) FROM visits_visit")


def generate(wanted: int) -> None:
    """A clinic of at least ``wanted`` people; nothing where there are enough already."""
    call_command("migrate", verbosity=0)
    if people() >= wanted:
        return
    call_command("load_invented_clinic", verbosity=0)
    with connection.cursor() as cursor:
        # A draft's copies would all be on the first page.
        cursor.execute("SET session_replication_role = replica; SET synchronous_commit = off")
        cursor.execute("UPDATE visits_visit SET state = 'discarded' WHERE state = 'draft'")
    tables = record_tables()
    _thicken(tables)
    _multiply(tables, copies=-(-wanted // people()) - 1)
    _finish(tables)


def _thicken(tables: tuple[Table, ...]) -> None:
    of_visits = [t for t in tables if not t.name.startswith("patients_")]
    copied = {t.name for t in of_visits}
    step = 10_000
    with transaction.atomic():
        for table in of_visits:
            if table.name in _DRAFTS_ONLY or not (table.counted or copied & {*table.keys.values()}):
                continue
            earlier = {name: f'o."{name}" - {_EARLIER}' for name in table.moments}
            # A date less an interval would be a moment: dates go by whole days.
            earlier |= {name: f'o."{name}" - k * 400' for name in table.days}
            changes = earlier | _past(table, step)
            _run(copy(table, copied=copied, copies=THICKER, changes=changes, step=step))


def _past(table: Table, step: int) -> dict[str, str]:
    """What is open now was answered, or kept, then."""
    if table.name == "follow_up_followup":
        visit = "(SELECT visit_id FROM visits_assessment a WHERE a.id = o.set_by_id)"
        return {"done_by_id": f"{visit} + k * {step}"}
    return _answered(table, "true")


def _answered(table: Table, when: str) -> dict[str, str]:
    if table.name != "referrals_referral":
        return {}
    moment = "o.made_at + interval '20 hours'"
    return {
        "answer": f"CASE WHEN {when} AND o.answer = '' THEN 'Seen.' ELSE o.answer END",
        "answered_at": f"CASE WHEN {when} THEN COALESCE(o.answered_at, {moment}) "
        "ELSE o.answered_at END",
        "answered_by_id": f"CASE WHEN {when} THEN COALESCE(o.answered_by_id, o.made_by_id) "
        "ELSE o.answered_by_id END",
    }


def _multiply(tables: tuple[Table, ...], copies: int) -> None:
    copied = {t.name for t in tables}
    for table in tables:
        began = time.monotonic()
        _run(copy(table, copied=copied, copies=copies, changes=_varied(table)))
        print(f"  {table.name}: {time.monotonic() - began:.0f} s", flush=True)


def _varied(table: Table) -> dict[str, str]:
    if table.name == "patients_patient":
        mixed = "abs(hashtext(o.id || '/' || k))"
        return {
            "record_number": "'S' || k || '-' || o.record_number",
            "family_name": _one_of(FAMILY, mixed),
            "given_name": _one_of(GIVEN, f"{mixed} / {len(FAMILY)}"),
            "date_of_birth": f"o.date_of_birth - {mixed} % 3000",
        }
    if table.name == "follow_up_followup":
        # Spread over a year, some late: the same share of people is due on any day.
        return {"due": "CURRENT_DATE - 10 + ((k * 37 + o.id) % 365)::int"}
    # One clinic in so many leaves a question open: a surgeon has a day's worth, not a year's.
    return _answered(table, "k % 500 <> 0")


def _one_of(words: tuple[str, ...], number: str) -> str:
    quoted = ", ".join(f"'{word}'" for word in words)
    return f"(ARRAY[{quoted}])[1 + {number} % {len(words)}]"


def _finish(tables: tuple[Table, ...]) -> None:
    for table in tables:
        if table.counted:
            _run(restart(table))
    _run("SET session_replication_role = origin")
    _run("VACUUM ANALYZE")


def _run(statement: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute(statement)


def _number(question: str) -> int:
    with connection.cursor() as cursor:
        cursor.execute(question)
        return int(cursor.fetchone()[0])
