"""Every line of the audit trail reads as a sentence, whatever an action writes."""

import ast
from collections.abc import Iterator
from pathlib import Path
from uuid import uuid4

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.accounts.permissions import Right
from clinic.audit.models import AccessLog
from clinic.audit.record import record
from clinic.audit_trail.page_names import PAGES
from clinic.audit_trail.sentences import SENTENCES, Sentence, sentence_for
from tests.clinic.access import table
from tests.factories.accounts import UserFactory

CLINIC = Path(settings.BASE_DIR) / "clinic"
#: Functions that write the log, by the verb's place when it is not named.
WRITERS = {
    "record": None,
    "record_each": None,
    "record_listed": None,
    "_record": 2,
    "_create": 3,
    "_change": 3,
}


def row(action: str, kind: str, detail: str = "") -> AccessLog:
    return AccessLog(action=action, subject_kind=kind, detail=detail)


def verbs() -> Iterator[str]:
    """Every verb that the sources write, as far as it is written out there."""
    for path in sorted(CLINIC.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in WRITERS:
                place = WRITERS[getattr(node.func, "id", "")]
                given = [k.value for k in node.keywords if k.arg == "action"]
                given += [] if place is None else node.args[place : place + 1]
                yield from (str(v.value) for v in given if isinstance(v, ast.Constant))


def test_every_verb_has_its_sentence() -> None:
    written = set(verbs())
    assert {"printed", "registered", "opened to print"} <= written  # each kind of writer is read
    assert written == {action for action, _ in SENTENCES} | {"was refused"}


def test_every_guarded_page_has_its_words() -> None:
    guarded = {name for name, one in table().items() if isinstance(one.takes, Right)}
    assert set(PAGES) == guarded | {"page"}


@pytest.mark.parametrize(
    ("stored", "did", "more"),
    [
        (("viewed", "patient"), "opened the patient's record", ""),
        (
            ("printed", "assessment", "care sheet, large print"),
            "printed the care sheet",
            "large print",
        ),
        (("printed", "stoma", "wear diary, 2026-11"), "printed the wear diary", "Nov 2026"),
        (
            ("recorded answer received", "referral", "telephone"),
            "recorded an answer to a referral, received by telephone",
            "",
        ),
        (
            ("moved next visit", "follow up", "2026-11-21 to 2026-11-30: could_not_travel"),
            "moved the next visit to another day",
            "21 Nov 2026 to 30 Nov 2026: could not travel",
        ),
        (
            ("changed wear log", "stoma", "4 added, 0 corrected, 0 removed"),
            "changed the wear log of a stoma",
            "4 added",
        ),
        (("was refused", "audit_trail:log"), "was refused: the audit trail", ""),
        (("was refused", "gone:page"), "was refused: the page gone:page", ""),
        (("printed", "stoma", "wear diary, 2026-13"), "printed the wear diary", "2026-13"),
        # Nothing is ever hidden: what has no sentence shows as it is stored.
        (("counted", "beans", "0 left"), "counted beans", "0 left"),
    ],
)
def test_said_in_plain_words(stored: tuple[str, ...], did: str, more: str) -> None:
    assert sentence_for(row(*stored), {}) == Sentence(did, more)


def test_an_account_is_named() -> None:
    one = row("set the password of", "user")
    one.subject_uuid = uuid4()
    assert sentence_for(one, {one.subject_uuid: "Fern Larkspur, nurse"}).did == (
        "set a new password for Fern Larkspur, nurse"
    )
    assert sentence_for(one, {}).did == "set a new password for somebody"


@pytest.mark.django_db
def test_the_page_says_it_and_the_row_stays(client: Client) -> None:
    other = UserFactory(first_name="Rue", last_name="Sedge")
    record(request_or_actor=None, action="sign-in failed", subject=other, detail="known user")
    client.force_login(UserFactory(role=Role.LEAD))
    shown = client.get(reverse("audit_trail:log")).content.decode()
    assert f"failed to sign in as {other.display_name}" in shown
    stored = AccessLog.objects.get(action="sign-in failed")
    assert (stored.subject_kind, stored.detail) == ("user", "known user")
