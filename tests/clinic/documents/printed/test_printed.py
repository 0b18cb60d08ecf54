"""Every paper is stored as it was printed, listed, and opened again byte for byte."""

from datetime import datetime, timedelta
from typing import Any

import pytest
from django.db import Error, connection, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.models import Kind, PrintedDocument, Rendering, SheetEdit, StoredFile
from clinic.documents.printed.printed_lists import SHOWN
from clinic.documents.rendering import cache
from clinic.follow_up.models import FollowUp, Move, MoveReason
from clinic.visits.models import Assessment
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.made_papers import printed_on, printed_paper, stored_file
from tests.clinic.documents.made_plans import LEAK
from tests.clinic.documents.made_visits import signed_as_planned
from tests.clinic.plans.signed_visits import referred
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db


def as_role(client: Client, role: Role) -> Client:
    client.force_login(UserFactory.create(role=role))
    return client


def opened(client: Client, document: PrintedDocument) -> Any:
    return client.get(reverse("documents:printed", args=[document.uuid]))


def test_every_paper_of_a_visit_is_stored_as_printed(client: Client) -> None:
    asked, made = referred(), signed_as_planned("leaking")
    whose = {asked.uuid: asked.assessment.visit.patient}
    as_role(client, Role.NURSE)
    answers = [
        (Kind.CARE_SHEET, "documents:care_sheet", made.uuid),
        (Kind.CUTTING_TEMPLATE, "documents:cutting_template", made.uuid),
        (Kind.SUPPLY_LIST, "documents:supply_list", made.uuid),
        (Kind.LETTER, "documents:letter", asked.uuid),
        (Kind.LETTER, "documents:visit_letter", made.uuid),
        (Kind.DIARY, "documents:diary", made.stoma.uuid),
    ]
    for kind, name, uuid in answers:
        answer = client.get(reverse(name, args=[uuid]))
        assert answer["Content-Type"] == "application/pdf", (name, answer.content)
        stored = PrintedDocument.objects.latest("id")
        assert stored.kind == kind
        assert bytes(stored.file.pdf) == answer.content
        assert stored.patient == whose.get(uuid, made.visit.patient)
        assert opened(client, stored).content == answer.content
    assert {one.paper for one in PrintedDocument.objects.all()} == {"a4"}
    about = PrintedDocument.objects.filter(referral=asked)
    assert [one.kind for one in about] == [Kind.LETTER]


def test_the_days_file_stores_each_sheet_under_its_own_visit(client: Client) -> None:
    made = signed_as_planned("leaking")
    as_role(client, Role.DESK)
    alone = client.get(reverse("documents:care_sheet", args=[made.uuid])).content
    answer: Any = client.post(reverse("documents:day_sheets"), {"sheet": [str(made.uuid)]})
    assert answer.getvalue()
    stored = PrintedDocument.objects.filter(kind=Kind.CARE_SHEET).latest("id")
    assert (stored.assessment, stored.detail) == (made, "with the day's sheets")
    assert bytes(stored.file.pdf) == alone
    # The leaf of a first visit is a file of its own.
    assert PrintedDocument.objects.filter(kind=Kind.LIVING, assessment=made).exists()
    assert StoredFile.objects.count() == 2


def test_the_same_content_is_one_file_and_set_once(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = signed_as_planned("leaking")
    as_role(client, Role.NURSE)
    first = client.get(reverse("documents:care_sheet", args=[made.uuid])).content
    monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", None)
    assert client.get(reverse("documents:care_sheet", args=[made.uuid])).content == first
    assert PrintedDocument.objects.count() == 2
    assert StoredFile.objects.count() == 1


def test_what_was_printed_is_never_set_again(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Sheets for a day's visits are those of visits long ago."""
    made = signed_as_planned("leaking")
    as_role(client, Role.NURSE)
    first = client.get(reverse("documents:care_sheet", args=[made.uuid])).content
    old = timezone.now() - timedelta(days=365)
    Rendering.objects.update(made_at=old)
    never_printed = stored_file(b"set, but never printed")
    with connection.cursor() as cursor:  # only a clock could make them old
        cursor.execute("ALTER TABLE documents_storedfile DISABLE TRIGGER USER")
        cursor.execute("UPDATE documents_storedfile SET made_at = %s", [old])
        cursor.execute("ALTER TABLE documents_storedfile ENABLE TRIGGER USER")
    cache.stored_file(['<html lang="en"><title>x</title><p>Another page'])
    assert not StoredFile.objects.filter(pk=never_printed.pk).exists()
    assert opened(client, PrintedDocument.objects.get()).content == first
    monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", None)
    assert client.get(reverse("documents:care_sheet", args=[made.uuid])).content == first


@pytest.mark.parametrize(
    "attempt",
    [
        "UPDATE documents_printeddocument SET detail = 'other'",
        "DELETE FROM documents_printeddocument",
        "TRUNCATE documents_printeddocument CASCADE",
        "UPDATE documents_storedfile SET pdf = 'x'",
        "DELETE FROM documents_storedfile",
    ],
)
def test_the_database_keeps_it_as_it_is(attempt: str) -> None:
    printed_paper(signed_as_planned("well_fitting"))
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
        with pytest.raises(Error):
            cursor.execute(attempt)
        transaction.set_rollback(True)


def test_what_was_printed_stays_when_the_sheet_is_edited_later(client: Client) -> None:
    made = signed_as_planned("leaking")
    as_role(client, Role.NURSE)
    before = client.get(reverse("documents:care_sheet", args=[made.uuid])).content
    first = PrintedDocument.objects.get()
    SheetEdit.objects.create(
        assessment=made,
        after_steps="Call me on Friday.",
        changed_by=made.visit.clinician,
        changed_at=timezone.now(),
    )
    after = client.get(reverse("documents:care_sheet", args=[made.uuid])).content
    assert "Call me on Friday." in paper.whole_text(after)
    assert opened(client, first).content == before


class TestWhoOpensIt:
    def test_a_letter_is_not_for_the_front_desk(self, client: Client) -> None:
        letter = printed_paper(signed_as_planned("leaking"), Kind.LETTER)
        assert opened(as_role(client, Role.DESK), letter).status_code == 403
        assert opened(as_role(client, Role.SURGEON), letter).status_code == 200

    def test_what_was_printed_from_a_draft(
        self, client: Client, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        made_visits.use_plan(monkeypatch, LEAK)
        draft = made_visits.assessed()
        made_visits.decide(draft, LEAK)
        document = printed_paper(draft)
        assert not document.signed
        found = {role: opened(as_role(client, role), document).status_code for role in Role}
        assert {role for role, status in found.items() if status == 200} == {Role.NURSE}
        made_visits.sign(draft)
        found = {role: opened(as_role(client, role), document).status_code for role in Role}
        assert {role for role, status in found.items() if status == 403} == {Role.DESK}

    def test_opening_it_is_on_record(self, client: Client) -> None:
        document = printed_paper(signed_as_planned("leaking"))
        opened(as_role(client, Role.DESK), document)
        row = AccessLog.objects.get(action="opened again")
        assert (row.subject_uuid, row.patient_uuid, row.detail) == (
            document.uuid,
            document.patient.uuid,
            "care sheet",
        )


class TestWhereItIsListed:
    def test_under_the_signed_visit(self, client: Client) -> None:
        made = signed_as_planned("leaking")
        document = printed_paper(made)
        page = as_role(client, Role.SURGEON).get(reverse("charting:visit", args=[made.visit.uuid]))
        text = page.content.decode()
        assert reverse("documents:printed", args=[document.uuid]) in text
        assert document.printed_by.display_name in text

    def test_for_the_desk_by_date_and_without_anything_clinical(self, client: Client) -> None:
        made = signed_as_planned("leaking")
        sheet, letter = printed_paper(made), printed_paper(made, Kind.LETTER)
        as_role(client, Role.DESK)
        page = client.get(reverse("patients:record", args=[made.visit.patient.uuid]))
        text = page.content.decode()
        for name in ("care_sheet", "cutting_template", "supply_list"):
            assert reverse(f"documents:{name}", args=[made.uuid]) in text
        assert reverse("documents:printed", args=[sheet.uuid]) in text
        assert str(letter.uuid) not in text
        assert made.stoma.short_name not in text
        assert "ileostomy" not in text.lower()
        assert reverse("documents:preview", args=[made.uuid]) not in text

    def test_the_desk_finds_no_draft(self, client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
        made_visits.use_plan(monkeypatch, LEAK)
        draft = made_visits.assessed()
        as_role(client, Role.DESK)
        page = client.get(reverse("patients:record", args=[draft.visit.patient.uuid]))
        assert "No visit is signed yet" in page.content.decode()

    def test_a_diary_under_the_visit_before_it_was_printed(self, client: Client) -> None:
        """Diaries belong to the stoma; they are found where its other papers are."""
        old = signed_as_planned("leaking")
        before, after = old.visit.happened_at, old.visit.happened_at + timedelta(days=10)
        new = made_visits.signed_again(old, after)
        first, second = diary_of(old, before + timedelta(days=9)), diary_of(old, after)
        earliest = diary_of(old, before - timedelta(days=3))
        never = diary_of(signed_as_planned("leaking"), after)
        as_role(client, Role.NURSE)
        for visit, held, other in ((old.visit, first, second), (new.visit, second, first)):
            text = client.get(reverse("charting:visit", args=[visit.uuid])).content.decode()
            assert str(held.uuid) in text
            assert str(other.uuid) not in text
            assert (str(earliest.uuid) in text) == (visit == old.visit)
        as_role(client, Role.DESK)
        page = client.get(reverse("patients:record", args=[old.visit.patient.uuid]))
        text = page.content.decode()
        assert text.index("Visit of 16 May") < text.index(str(second.uuid))
        assert text.index(str(second.uuid)) < text.index("Visit of 6 May")
        assert text.index("Visit of 6 May") < text.index(str(first.uuid))
        assert text.index(str(first.uuid)) < text.index(str(earliest.uuid))
        assert str(never.uuid) not in text

    def test_the_desks_list_says_how_many_are_not_shown(self, client: Client) -> None:
        made = signed_as_planned("leaking")
        for _ in range(SHOWN + 2):
            printed_paper(made)
        as_role(client, Role.DESK)
        page = client.get(reverse("patients:record", args=[made.visit.patient.uuid]))
        assert f"Printed before ({SHOWN + 2})" in page.content.decode()
        assert "2 older than these are stored, too." in page.content.decode()

    def test_queries_do_not_grow_with_what_was_printed(
        self, client: Client, django_assert_max_num_queries: Any
    ) -> None:
        made = signed_as_planned("leaking")
        as_role(client, Role.DESK)
        address = reverse("patients:record", args=[made.visit.patient.uuid])
        client.get(address)
        with django_assert_max_num_queries(40) as few:
            client.get(address)
        for _ in range(5):
            printed_paper(made)
        with django_assert_max_num_queries(len(few)):
            client.get(address)


def diary_of(about: Assessment, at: datetime) -> PrintedDocument:
    return printed_on(about, at, Kind.DIARY)


def moved(made: Assessment, days: int) -> FollowUp:
    found = FollowUp.objects.get(set_by=made)
    was, found.due = found.due, found.due + timedelta(days=days)
    Move.objects.create(
        follow_up=found,
        was=was,
        became=found.due,
        reason=MoveReason.CLINIC_FULL,
        by=made.visit.clinician,
        at=timezone.now(),
    )
    found.save(update_fields=["due"])
    return found


def test_a_moved_visit_is_printed_with_its_new_day() -> None:
    from clinic.documents.patient_language.lay_terms import long_day
    from clinic.documents.patient_language.said import english
    from clinic.documents.supply_list.build import supply_list

    made = signed_as_planned("leaking")
    before = made_visits.decided(made).next_visit
    follow_up = moved(made, 3)
    decided = made_visits.decided(made)
    assert before is not None
    assert decided.next_visit == follow_up.due == before + timedelta(days=3)
    assert decided.counted_to == before
    sheet = made_visits.sheet_of(made)
    assert sheet.next_visit is not None
    assert sheet.next_visit.day == english(long_day(follow_up.due, weekday=True))
    listed = supply_list(decided)
    assert not listed.counted
    assert (listed.until, listed.counted_words) == (
        english(long_day(follow_up.due)),
        english(long_day(before)),
    )
