"""After any sequence of posts a draft opens: every page of it, with all that was typed, and what
is wrong can be corrected from there."""

from __future__ import annotations

import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

import pytest
from django.db import transaction
from django.http import QueryDict
from django.test import Client
from django.urls import reverse
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from clinic.charting.page import decision_forms, open_page
from clinic.plans.models import Choice
from clinic.visits.chart import PARTS, ROWS, Chart
from clinic.visits.merging import as_posted, same_text
from clinic.visits.models import Assessment
from tests.clinic.plans.signed_visits import posted_page, reread
from tests.clinic.test_access import URLS
from tests.factories.visits import AssessmentFactory, PhotoFactory

pytestmark = pytest.mark.django_db

#: What a tired hand writes into a box: nothing, nonsense, what is out of every range.
TYPED = (
    *("", " ", "0", "-1", "5", "25,5", "25.55", "301", "9" * 30, "1e999", "NaN", "wide", "٤"),
    *("2025-05-01", "2025-05-06T10:15", "yesterday", "0001-01-01T00:00", "9999-12-31T23:59"),
    *("2025-02-30", "none", "present", "<b>&amp;", "x" * 5000, "\x00", "ring", "own_words"),
)
#: Few, so that a row comes back under an id that was used or removed before.
KEYS = [str(uuid.UUID(int=n, version=4)) for n in range(1, 4)]
#: Parts of the page that one post leaves out.
LEFT_OUT = ("visit", "whole", *PARTS, *ROWS, "decision")
#: Buttons that save and stay on the visit, as a fragment or as a page.
PRESSES = ("save", "plan", "sign", "preview", "accept-rest", "add-finding", "add-wear", "photos")
#: Pages of a signed visit.
NOT_OF_A_DRAFT = {"follow_up:reschedule", "visits:addendum"}
#: Opened; takes no GET; a page that says what is to be decided first.
OPENS = {200, 405, 409}


@dataclass
class Draft:
    """One draft, its nurse, the pages about it and what each box of its page offers."""

    assessment: Assessment
    client: Client
    good: QueryDict
    pages: dict[str, str]
    offered: dict[str, list[str]]

    def send(self, data: QueryDict, press: str) -> Any:
        url = reverse("charting:save", args=[self.assessment.uuid])
        body = data.copy()
        body["press"] = press
        headers = {"X-Autosave": "1"} if press == "autosave" else {}
        kind = "application/x-www-form-urlencoded"
        return self.client.post(url, body.urlencode(), content_type=kind, headers=headers)

    def shown(self) -> QueryDict:
        """What the browser would post of the page as it opens now."""
        stored = reread(self.assessment)
        page, data = open_page(stored), QueryDict(mutable=True)
        for name, values in as_posted(page.chart, list(page.decisions or ())).items():
            data.setlist(name, values)
        data["version"] = str(stored.visit.version)
        return data


def pages_of(draft: Assessment) -> dict[str, str]:
    """Every address of the site that this draft, its stoma or its person is named in."""
    visit, photo = draft.visit, PhotoFactory(assessment=draft)
    ids = {
        "assessment": draft.uuid,
        "visit": visit.uuid,
        "stoma": draft.stoma.uuid,
        "patient": visit.patient.uuid,
        "photo": photo.pk,
    }
    found = {"clinic_day:day": reverse("clinic_day:day")}
    for name, url in URLS.items():
        parts = url.pattern.converters
        if parts and parts.keys() <= ids.keys() and name not in NOT_OF_A_DRAFT:
            found[name] = reverse(name, kwargs={part: ids[part] for part in parts})
    return found


def offered_by(draft: Assessment) -> dict[str, list[str]]:
    """The choices that a field of the page has; none for a box to write in."""
    stored = reread(draft)
    chart = Chart(stored)
    forms = [form for _, form in chart.forms()]
    forms += [rows.blank for rows in chart.rows.values()]
    forms += decision_forms(stored)  # type: ignore[arg-type]
    return {
        form.add_prefix(name): [str(value) for value, _ in getattr(one, "choices", ())]
        for form in forms
        for name, one in form.fields.items()
    }


@pytest.fixture
def draft(client: Client) -> Draft:
    assessment = AssessmentFactory(leaking=True)
    client.force_login(assessment.visit.clinician)
    good, pages = posted_page(assessment), pages_of(assessment)
    return Draft(assessment, client, good, pages, offered_by(assessment))


def boxes(draft: Draft, post: QueryDict) -> Iterator[tuple[str, list[str]]]:
    """Each field of the page, with its choices. What is taken instead of a proposal is chosen from
    a list that the plan makes, and is left alone."""
    silent = ("-about", "-instead", "version", "press")
    for name in [n for n in post if not n.endswith(silent)]:
        kind, _, rest = name.partition("-")
        pattern = f"{kind}-KEY-{rest[37:]}" if kind in ROWS and len(rest) > 36 else name
        yield name, draft.offered.get(pattern, [])


def drawn(draft: Draft, by: Random) -> QueryDict:
    """What one post sends: the page as it is shown, with a few things typed, added, taken away."""
    post = draft.shown()
    if by.random() < 0.5:
        _add_row(draft, post, by)
    fields = dict(boxes(draft, post))
    for name in by.sample(sorted(fields), by.randint(0, 6)):
        if name.endswith("-row"):  # a row removed, or sent twice
            keys = post.getlist(name)
            post.setlist(name, by.choice([[], keys[1:], keys * 2]))
        else:
            post.setlist(name, typed(fields[name], by))
    if by.random() < 0.25:
        post["visit-happened_at"] = by.choice(TYPED)
    if by.random() < 0.15:
        gone = by.choice(LEFT_OUT)
        for name in [n for n in post if n.startswith(f"{gone}-")]:
            del post[name]
    return post


def typed(choices: list[str], by: Random) -> list[str]:
    """Ticks where there are boxes, one of the choices, or anything at all."""
    if choices and not {"", Choice.DROPPED} & set(choices):
        return by.sample(choices, by.randint(0, min(3, len(choices))))
    return [by.choice(choices or TYPED)]


def _add_row(draft: Draft, post: QueryDict, by: Random) -> None:
    kind, key = by.choice(sorted(ROWS)), by.choice(KEYS)
    post.appendlist(f"{kind}-row", key)
    names = [n for n in draft.offered if n.startswith(f"{kind}-KEY-") and not n.endswith("-remove")]
    for name in by.sample(names, by.randint(0, min(3, len(names)))):
        post.setlist(name.replace("KEY", key), typed(draft.offered[name], by))


def lost(draft: Draft, post: QueryDict, *, accepted: bool) -> dict[str, Any]:
    """What was typed and is not shown; a row that was removed, or in which nothing was typed, is
    no more asked for. ``accepted``: what was left open is accepted."""
    now, chart = draft.shown(), open_page(reread(draft.assessment)).chart
    kept = {str(form.prefix) for rows in chart.rows.values() for form in rows.kept()}
    asked = {name for name, _ in boxes(draft, now)}
    gone: dict[str, Any] = {}
    for name, values in post.lists():
        kind, _, rest = name.partition("-")
        if name.endswith(("-row", "-about", "-remove", "-instead")) or name in {"version", "press"}:
            continue
        if kind in ROWS and f"{kind}-{rest[:36]}" not in kept:
            removed = any(post.getlist(f"{kind}-{rest[:36]}-remove"))
            if any(values) and not removed and rest[:36] in post.getlist(f"{kind}-row"):
                gone[name] = values
        elif kind == "decision" and name not in asked:
            continue  # the plan says it no more
        elif accepted and name.endswith("-choice") and not any(values):
            continue
        elif not same_text(_said(values), _said(now.getlist(name))):
            gone[name] = (values, now.getlist(name))
    return gone


def _said(values: list[Any]) -> list[str]:
    # As a hand elsewhere writes the same number, and what no column can hold.
    alike = str.maketrans({"\0": "\ufffd", ",": ".", "\u0664": "4"})
    said = [str(value).translate(alike).strip() for value in values]
    return [value for value in said if value]


def try_one(draft: Draft, by: Random) -> None:
    """A few posts; then the draft's pages; then all is corrected in one."""
    for _ in range(by.randint(1, 3)):
        post, press = drawn(draft, by), by.choice(["autosave", "autosave", *PRESSES])
        answer = draft.send(post, press)
        assert answer.status_code in {200, 302, 422}, (press, answer.status_code)
        assert lost(draft, post, accepted=press == "accept-rest") == {}
    for name in ["charting:chart", *by.sample(sorted(draft.pages), 3)]:
        status = draft.client.get(draft.pages[name], follow=True).status_code
        assert status in OPENS, (name, status)
    good = draft.good.copy()
    good["version"] = str(draft.shown()["version"])
    corrected = draft.send(good, "autosave")
    assert corrected.json()["errors"] == {}
    # A decision half written about what the plan says no more waits for the plan to say it again.
    waiting = reread(draft.assessment).pending.exclude(prefix__startswith="decision-")
    assert not waiting.exists()


@settings(
    max_examples=6,
    # A page takes too long to be opened for a failure to be made smaller.
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(by=st.randoms(use_true_random=False))
def test_any_draft_opens_with_what_was_typed(draft: Draft, by: Random) -> None:
    with transaction.atomic():
        try_one(draft, by)
        transaction.set_rollback(True)
