"""The day's sheets as one file: who is in it, how far it has come, what stays on record."""

import errno
import io
import tracemalloc
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.care_sheet.pages import html_of
from clinic.documents.care_sheet.sheet import Sheet
from clinic.documents.day_batch import build as day_batch
from clinic.documents.models import PrintedDocument, Rendering
from clinic.documents.rendering.cache import stored_file
from clinic.documents.rendering.pdf import pdf_of
from clinic.documents.rendering.pdf_merge import PdfMerge
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.follow_up.models import FollowUp
from clinic.visits.models import Assessment
from tests.clinic.documents import paper
from tests.clinic.documents.made_visits import signed_as_planned
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

ADDRESS = "documents:day_sheets"


def due_today(situation: str = "well_fitting") -> Assessment:
    made = signed_as_planned(situation)
    FollowUp.objects.filter(set_by=made).update(due=timezone.localdate())
    return made


def printed(client: Client, sheets: list[Assessment], role: Role = Role.DESK) -> Any:
    client.force_login(UserFactory.create(role=role))
    return client.post(reverse(ADDRESS), {"sheet": [str(one.uuid) for one in sheets]})


def body(answer: Any) -> bytes:
    return b"".join(answer.streaming_content)


def test_joined_pages_keep_text_order_and_tags(sheet: Sheet, long_sheet: Sheet) -> None:
    parts = [pdf_of(html_of(one)) for one in (sheet, long_sheet, sheet)]
    whole = joined(parts)
    assert paper.page_texts(whole) == [text for part in parts for text in paper.page_texts(part)]
    assert paper.tags(whole) == [tag for part in parts for tag in paper.tags(part)]
    read = paper.reader(whole)
    root: Any = read.trailer["/Root"]
    assert read.metadata is not None
    assert read.metadata.title == "All"
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    assert "/Metadata" in root


def test_every_page_finds_its_own_tags_in_the_joined_file(sheet: Sheet) -> None:
    """ISO 32000-1, 14.7.4.4: a page's number in the parent tree leads to tags of that page."""
    read = paper.reader(joined([pdf_of(html_of(sheet))] * 3))
    root: Any = read.trailer["/Root"]
    flat = root["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    tree = {flat[i]: flat[i + 1].get_object() for i in range(0, len(flat), 2)}
    for page in read.pages:
        for tag in tree[page["/StructParents"]]:
            held: Any = tag.get_object()
            if "/Pg" in held:
                assert held["/Pg"].get_object() == page.get_object()


def joined(parts: list[bytes]) -> bytes:
    out = io.BytesIO()
    joining = PdfMerge(out, title="All")
    for part in parts:
        joining.add(part)
    joining.finish()
    return out.getvalue()


def test_nothing_to_join() -> None:
    with pytest.raises(ValueError, match="no page"):
        PdfMerge(io.BytesIO(), title="None").finish()


def test_memory_does_not_grow_with_the_number_of_sheets(sheet: Sheet) -> None:
    """Four times as many sheets, and not half as much again at the peak."""
    part = pdf_of(html_of(sheet))

    def peak(sheets: int) -> int:
        with open("/dev/null", "wb") as out:  # noqa: PTH123
            tracemalloc.start()
            joining = PdfMerge(out, title="All")
            for _ in range(sheets):
                joining.add(part)
            joining.finish()
            found = tracemalloc.get_traced_memory()[1]
            tracemalloc.stop()
        return found

    peak(1)
    assert peak(24) < 1.5 * peak(6)


def pdf_kept(html: str) -> bytes:
    return bytes(stored_file([html]).pdf)


@pytest.mark.django_db
class TestKept:
    """What was set once is printed again as the very same bytes."""

    def test_the_same_page_is_set_once(self, sheet: Sheet, monkeypatch: pytest.MonkeyPatch) -> None:
        first = pdf_kept(html_of(sheet))
        monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", None)
        assert pdf_kept(html_of(sheet)) == first

    def test_another_page_is_set_again(self, sheet: Sheet) -> None:
        assert pdf_kept(html_of(sheet)) != pdf_kept(html_of(sheet).replace("ring", "belt"))

    def test_old_ones_go(self, sheet: Sheet) -> None:
        pdf_kept(html_of(sheet))
        Rendering.objects.update(made_at=timezone.now() - timedelta(days=31))
        pdf_kept(html_of(sheet).replace("ring", "belt"))
        assert Rendering.objects.count() == 1


@pytest.mark.django_db
def test_everyone_due_is_ticked_by_name_and_date_alone(client: Client) -> None:
    made, later = due_today("leaking"), signed_as_planned("leaking")
    client.force_login(UserFactory.create(role=Role.DESK))
    page = client.get(reverse(ADDRESS)).content.decode()
    assert f'value="{made.uuid}" checked' in page
    assert str(later.uuid) not in page
    assert made.stoma.patient.list_name in page
    assert made.stoma.short_name not in page
    assert reverse(ADDRESS) + "?day=" in client.get("/").content.decode()


@pytest.mark.django_db
def test_one_plain_post_prints_them_all(client: Client) -> None:
    sheets = [due_today("well_fitting"), due_today("leaking")]
    answer = printed(client, sheets)
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Cache-Control"] == "no-store"
    text = paper.whole_text(body(answer))
    for one in sheets:
        assert one.stoma.patient.record_number in text
    rows = AccessLog.objects.filter(action="printed")
    assert {row.patient_uuid for row in rows} == {one.stoma.patient.uuid for one in sheets}
    assert {row.detail for row in rows} == {
        "care sheet, with the day's sheets",
        "living with your stoma, with the day's sheets",
    }


@pytest.mark.django_db
def test_the_sheets_are_those_of_the_single_prints(client: Client) -> None:
    made = due_today("leaking")
    type(made.stoma.patient).objects.filter(pk=made.stoma.patient.pk).update(large_print=True)
    whole = body(printed(client, [made]))
    alone = client.get(reverse("documents:care_sheet", args=[made.uuid])).content
    leaf = client.get(reverse("documents:living", args=[made.uuid])).content
    assert paper.page_texts(whole) == paper.page_texts(alone) + paper.page_texts(leaf)


@pytest.mark.django_db
def test_the_leaf_comes_with_the_sheet_once(client: Client) -> None:
    made = due_today("leaking")
    first, again = (paper.whole_text(body(printed(client, [made]))) for _ in range(2))
    assert "Living with your stoma" in first
    assert "Living with your stoma" not in again


@pytest.mark.django_db
def test_a_turn_that_runs_out_says_how_far_it_came(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(day_batch, "A_TURN", -1.0)
    sheets = [due_today(), due_today(), due_today()]
    first = printed(client, sheets)
    assert "1 of 3 sheets are ready" in first.content.decode()
    assert first.content.decode().count(" checked") == 3
    assert not AccessLog.objects.filter(action="printed").exists()
    assert "2 of 3 sheets are ready" in printed(client, sheets).content.decode()
    assert len(paper.reader(body(printed(client, sheets))).pages) >= 3


@pytest.mark.django_db
def test_one_sheet_at_a_time_for_the_pages_script(client: Client) -> None:
    made = due_today()
    client.force_login(UserFactory.create(role=Role.DESK))
    answer = client.post(reverse("documents:day_sheet_ready"), {"sheet": str(made.uuid)})
    assert answer.json() == {"ready": True}
    # The sheet of a first visit, and its leaf.
    assert Rendering.objects.count() == 2
    assert not AccessLog.objects.filter(action="printed").exists()
    assert client.post(reverse("documents:day_sheet_ready"), {"sheet": "x"}).status_code == 400


@pytest.mark.django_db
def test_none_chosen_is_said_and_no_one_is_ticked(client: Client) -> None:
    due_today()
    answer = printed(client, [])
    assert answer.status_code == 422
    assert "Choose at least one sheet." in answer.content.decode()
    assert " checked" not in answer.content.decode()


@pytest.mark.django_db
def test_a_drafts_sheet_is_not_in_it(client: Client) -> None:
    assert printed(client, [AssessmentFactory(leaking=True)]).status_code == 404


@pytest.mark.django_db
def test_a_disk_that_takes_nothing_is_said_and_nothing_counts_as_printed(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full() -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("tempfile.TemporaryFile", full)
    one = due_today()
    answer = printed(client, [one])
    assert answer.status_code == 503
    assert "no room for one file of all these sheets" in answer.content.decode()
    assert not PrintedDocument.objects.exists()


@pytest.mark.django_db
def test_without_a_printer_program_it_says_so(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_pages: object, *, at_most: int) -> bytes:
        raise PrintingUnavailable("Pango is not here.")

    monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", fail)
    made = due_today()
    answer = printed(client, [made])
    assert answer.status_code == 503
    assert "Pango is not here." in answer.content.decode()
    told = client.post(reverse("documents:day_sheet_ready"), {"sheet": str(made.uuid)})
    assert told.json() == {"message": "Pango is not here."}
    assert not AccessLog.objects.filter(action="printed").exists()
