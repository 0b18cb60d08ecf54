"""A draft with something that could not be stored: every page of it opens and says what is wrong,
with what was typed, and it can be corrected from there."""

from collections.abc import Callable
from html import escape
from typing import Any

import pytest
from django.http import QueryDict
from django.test import Client
from django.urls import reverse

from clinic.charting.page import open_page, save_page
from clinic.visits.actions.save import Turn
from clinic.visits.merging import as_posted
from clinic.visits.models import Assessment
from tests.clinic.plans.signed_visits import posted_page, reread
from tests.clinic.visits.posting import posted, with_row
from tests.clinic.visits.refused import (
    KEY,
    REFUSED,
    ROWS_REFUSED,
    STATES,
    with_refused_row,
)
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory, PhotoFactory

pytestmark = pytest.mark.django_db

SECOND = "8f5b1c39-5c0f-4f2e-9a43-6c0b7f2f1d10"


def _twice(assessment: Assessment) -> QueryDict:
    data = with_row(posted(assessment), "wear", KEY, on="2025-05-01", off="2025-05-04")
    data[f"wear-{KEY}-reason"] = "leak"
    return with_row(data, "wear", SECOND, on="2025-05-03", off="2025-05-05", reason="planned")


def _still_on_twice(assessment: Assessment) -> QueryDict:
    return with_row(_row(assessment, "wear", on="2025-05-01"), "wear", SECOND, on="2025-05-03")


def _row(assessment: Assessment, kind: str, **values: Any) -> QueryDict:
    return with_row(posted(assessment), kind, KEY, **values)


def _without(prefix: str) -> Callable[[Assessment], QueryDict]:
    def post(assessment: Assessment) -> QueryDict:
        data = posted(assessment)
        for name in [n for n in data if n.startswith(f"{prefix}-")]:
            del data[name]
        return data

    return post


def _changed(**changes: Any) -> Callable[[Assessment], QueryDict]:
    return lambda assessment: posted(assessment, **changes)


#: What somebody posts, by what is wrong with it.
CASES: dict[str, Callable[[Assessment], QueryDict]] = {
    **{case: _changed(**changes) for case, (changes, _, _) in REFUSED.items()},
    **{case: lambda a, case=case: with_refused_row(a, case) for case in ROWS_REFUSED},  # type: ignore[misc]
    "a visit on no day": _changed(visit__happened_at="yesterday"),
    "a visit in the year 1": _changed(visit__happened_at="0001-01-01T00:00"),
    "a visit in the year 9999": _changed(visit__happened_at="9999-12-31T23:59"),
    "a visit for no reason offered": _changed(visit__reason="tartan"),
    "a page without the visit's part": _without("visit"),
    "a finding on skin that is intact": lambda a: with_row(
        posted(a, skin__state="intact"), "finding", KEY, kind="ulcer", hours=[6]
    ),
    "a crease where there is none": lambda a: with_row(
        posted(a, abdomen__creases="none"), "crease", KEY, hours=[6]
    ),
    "two barriers at once": _twice,
    "two barriers still on": _still_on_twice,
    "antibiotics, perhaps": _changed(whole__recent_antibiotics="perhaps"),
    "the visit before a barrier was put on": lambda a: with_row(
        posted(a, visit__happened_at="2025-05-01T10:00"), "wear", KEY, on="2025-05-03"
    ),
    "the date and the length": _changed(visit__happened_at="", stoma__length_mm="wide"),
    "a character that no database keeps": _changed(stoma__length_mm="2\x005"),
}


#: A limit more of a number that has a case already.
ALIKE = {"a length below zero", "a length of zero", "a separation deeper than any"}

#: Cases in which the rest of the page is charted too.
ON_A_FULL_PAGE = {"a page without the visit's part", "the date and the length"}


def _parts(case: str) -> set[str]:
    """The parts and kinds of rows that a case of ``REFUSED`` or ``ROWS_REFUSED`` touches."""
    if case in ROWS_REFUSED:
        kind = ROWS_REFUSED[case][0]
        return {kind} | {name.split("__")[0] for name in STATES.get(kind, {})}
    return {name.split("__")[0] for name in REFUSED[case][0]}


def _drafts() -> list[list[str]]:
    """Cases that touch no part in common wait in one draft; those of the visit itself, which can
    keep everything else from being stored, each in one of its own."""
    drafts: list[tuple[set[str], list[str]]] = []
    for case in CASES:
        if case in ALIKE:
            continue
        known = case in REFUSED or case in ROWS_REFUSED
        parts = _parts(case) if known else {"visit"}
        home = next((d for d in drafts if not d[0] & (parts | {"visit"})), None)
        if "visit" in parts or home is None:
            drafts.append((parts, [case]))
        else:
            home[0].update(parts)
            home[1].append(case)
    return [cases for _, cases in drafts]


#: Every form of the page waits in one of these drafts, and rows that clash.
TOGETHER = {
    "every form": [
        "a visit without a date",
        "antibiotics, perhaps",
        "convex depth of a flat barrier",
        "a length that is no number",
        "findings without a finding",
        "creases without a crease",
        "pain of eleven",
        "two barriers at once",
    ],
    "rows alone": ["a finding without hours", "a crease without hours", "put on after the visit"],
    "a day that is none": ["a visit on no day"],
    "a part left out": ["a page without the visit's part"],
}


def all_of(assessment: Assessment, cases: list[str]) -> QueryDict:
    """What is wrong in each of the cases, on one page."""
    good, page = posted(assessment), posted(assessment)
    for data in (CASES[case](assessment) for case in cases):
        for name in {*good, *data}:
            if data.getlist(name) != good.getlist(name):
                page.setlist(name, data.getlist(name))
                if name not in data:
                    del page[name]
    return page


@pytest.fixture
def nurse(client: Client) -> Client:
    client.force_login(UserFactory(role="nurse"))
    return client


def send(client: Client, assessment: Assessment, data: QueryDict) -> Any:
    return client.post(
        reverse("charting:save", args=[assessment.uuid]),
        data.urlencode(),
        content_type="application/x-www-form-urlencoded",
        headers={"X-Autosave": "1"},
    )


def pages_of(assessment: Assessment) -> list[str]:
    """Every page that shows this draft or the person it is about."""
    visit, stoma = assessment.visit, assessment.stoma
    photo = PhotoFactory(assessment=assessment)
    of_assessment = ("charting:chart", "charting:conflict", "referrals:refer", "charting:save")
    return [
        *(reverse(name, args=[assessment.uuid]) for name in of_assessment),
        reverse("charting:measure_photo", args=[photo.pk]),
        reverse("charting:visit", args=[visit.uuid]),
        reverse("clinic_day:day"),
        reverse("visits:history", args=[visit.uuid]),
        reverse("visits:wear_log", args=[stoma.uuid]),
        reverse("trends:stoma", args=[stoma.uuid]),
        reverse("patients:record", args=[visit.patient.uuid]),
    ]


def said(values: list[str]) -> list[str]:
    """Values without the empty boxes; a character that cannot be stored shows as unreadable."""
    return [value.replace("\0", "\ufffd") for value in values if value]


def prefix_of(name: str) -> str:
    """``finding-<id>-hours`` -> ``finding-<id>``, ``stoma-length_mm`` -> ``stoma``."""
    parts = name.split("-")
    return "-".join(parts[:6]) if len(parts) > 6 else parts[0]


def assert_opens(assessment: Assessment, client: Client, data: QueryDict, reply: Any) -> None:
    """The page opens, says what the save said, and holds what was typed."""
    page = open_page(reread(assessment))
    assert page.all_errors == reply["errors"]
    shown = as_posted(page.chart)
    wrong = {prefix_of(name) for name in page.chart.errors()}
    for name in data:
        if prefix_of(name) in wrong:
            assert said(shown.get(name, [])) == said(data.getlist(name)), name
    answer = client.get(reverse("charting:chart", args=[assessment.uuid]))
    assert answer.status_code == 200
    html = answer.content.decode()
    for name, messages in reply["errors"].items():
        for message in messages:
            assert html.count(escape(message)) >= 2, (name, message)  # on top, beside its field


@pytest.mark.parametrize("cases", _drafts(), ids=" + ".join)
def test_an_unfinished_draft_opens_and_is_corrected(cases: list[str], nurse: Client) -> None:
    assessment = AssessmentFactory(leaking=not ON_A_FULL_PAGE.isdisjoint(cases))
    good = posted_page(assessment)
    data = CASES[cases[0]](assessment) if len(cases) == 1 else all_of(assessment, cases)
    reply = send(nurse, assessment, data).json()
    assert len(reply["errors"]) >= len(cases)
    assert_opens(assessment, nurse, data, reply)
    # Saved as it opens, nothing is written and the same is said.
    again = posted_page(assessment, version=reread(assessment).visit.version)
    for name, values in data.lists():  # a browser posts its empty boxes too
        if values == [""]:
            again.setlist(name, values)
    same = send(nurse, assessment, again).json()
    assert (same["version"], same["errors"]) == (reply["version"], reply["errors"])
    assert same["headline"] == reply["headline"]
    good["version"] = str(reply["version"])
    mended = send(nurse, assessment, good)
    assert mended.json()["errors"] == {}
    assert not reread(assessment).pending.exists()


@pytest.mark.parametrize("cases", TOGETHER)
def test_every_page_of_an_unfinished_draft_opens(cases: str, nurse: Client) -> None:
    assessment = AssessmentFactory()
    stale = posted(assessment, visit__note="Mine alone")
    sent = send(nurse, assessment, all_of(assessment, TOGETHER[cases]))
    wrong = {prefix_of(name) for name in sent.json()["errors"]}
    assert len(wrong) >= len(TOGETHER[cases])
    late = send(nurse, assessment, stale)
    assert late.status_code == 409
    for url in pages_of(assessment):
        assert nurse.get(url, follow=True).status_code == 200, url
    assert "Mine alone" in nurse.get(late.json()["conflict"]).content.decode()


def test_the_plan_rests_on_what_is_stored_when_a_draft_opens() -> None:
    """Half an answer that was not stored moves no figure of the page, nor a word of the plan."""
    assessment = AssessmentFactory(leaking=True)
    before = open_page(reread(assessment))
    data = posted(assessment, stoma__junction="separated", stoma__length_mm="4O")
    saved = save_page(
        reread(assessment),
        data=data,
        turn=Turn(assessment.visit.version),
        by=assessment.visit.clinician,
    )
    opened = open_page(reread(assessment))
    assert opened.all_errors == saved.all_errors
    assert set(opened.all_errors) == {"stoma-separation_hours", "stoma-length_mm"}
    assert opened.assessment.measurement.junction == "intact"
    assert opened.live == saved.live
    assert opened.live.findings == before.live.findings


def test_hours_left_empty_stay_not_recorded_beside_an_error() -> None:
    """Nothing ticked is *not recorded*: a slip elsewhere never makes it *nowhere*."""
    assessment = AssessmentFactory()
    for _ in range(2):
        stored = reread(assessment)
        save_page(
            stored,
            data=posted(stored, system__opening_length_mm="4O", system__pieces="one_piece"),
            turn=Turn(stored.visit.version),
            by=stored.visit.clinician,
        )
    stored = reread(assessment)
    assert stored.system.leak_hours is None
    assert as_posted(open_page(stored).chart)["system-leak_hours"] == []
