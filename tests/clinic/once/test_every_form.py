"""Every form that makes something makes it once, however often it is sent."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from django.contrib.auth.models import AnonymousUser
from django.core.exceptions import PermissionDenied
from django.http import HttpResponseNotAllowed
from django.test import Client, RequestFactory
from django.urls import reverse

from tests.clinic.once.sendings import SENDINGS
from tests.clinic.test_access import URLS
from tests.factories.accounts import UserFactory

TEMPLATES = Path(__file__).resolve().parents[3] / "templates"

#: Sent once too, and makes nothing: it changes, closes, withdraws or takes away what is there.
CHANGES = {
    *("accounts:user_change", "accounts:user_password"),
    *("clinic_details:edit", "clinic_details:holiday_remove"),
    *("complications:correct", "complications:remove", "trials:correct", "trials:remove"),
    *("documents:codes", "measuring_error:withdraw", "patient_answers:withdraw"),
    *("patients:correct", "patients:contacts", "patients:known_end", "patients:stoma_correct"),
    # A restriction is one at a time, a reason one until it runs out.
    *("patients:open_restricted", "patients:restrict", "patients:lift_restriction"),
    *("patients:sensitivities_asked", "patients:sensitivity_remove", "patients:stoma_close"),
    *("site_marking:used", "site_marking:withdraw", "tasks:done", "tasks:not_done"),
    *("teaching:withdraw", "visits:discard", "visits:photo_remove"),
}
#: Takes a post without a key: what it is known again by.
WITHOUT_KEY = {
    "account_lock": "the second changes nothing",
    "account_locked": "the password, each time",
    "accounts:session_end": "the session, which is gone afterwards",
    "accounts:sessions_end_others": "the second finds none to end",
    "accounts:user_try_again": "failures count from the last time on",
    "charting:save": "a page's id and turn; each row's own id",
    "charting:conflict": "the copy that is settled, which is gone afterwards",
    "charting:measure_photo": "one measurement a photo, which replaces the last",
    "charting:propose_marks": "stores nothing",
    "documents:day_sheet_ready": "stores files by their content",
    "documents:day_sheets": "stores files by their content",
    "documents:edit_sheet": "one edit a sheet, by its version",
    "visits:wear_save": "each row's own id, and the log's version",
    "visits:wear_read": "stores nothing",
    "patients:results": "a search",
    "referrals:referrals": "a search",
    "audit_trail:log": "a search",
}
OURS = {name: url for name, url in URLS.items() if url.callback.__module__.startswith("clinic.")}
FORM = re.compile(r"<form\b[^>]*method=\"post\".*?</form>", re.S)
ACTION = re.compile(r"action=\"{% url '([^']+)'")
#: Templates whose form goes to the page's own address, which takes a post without a key.
OWN_ADDRESS = {
    "charting/conflict.html",
    "charting/photo_measure.html",
    "documents/day_batch/day_sheets.html",
    "audit_trail/log.html",
}


def takes_posts(name: str) -> bool:
    """Asked of the view itself, by somebody signed out: it says that it takes none, or refuses."""
    request = RequestFactory().post("/")
    request.user = AnonymousUser()
    parts = dict.fromkeys(OURS[name].pattern.converters, uuid4())
    try:
        return not isinstance(OURS[name].callback(request, **parts), HttpResponseNotAllowed)
    except PermissionDenied:
        return True


def test_every_address_that_takes_a_post_has_a_key_or_says_why_not() -> None:
    posts = {name for name in OURS if takes_posts(name)}
    keyed = {name for name in posts if getattr(OURS[name].callback, "once", False)}
    assert posts - keyed == set(WITHOUT_KEY)
    assert keyed == SENDINGS.keys() | CHANGES


def test_every_form_on_a_page_has_its_key() -> None:
    bare = []
    for path in TEMPLATES.rglob("*.html"):
        name = str(path.relative_to(TEMPLATES))
        for form in FORM.findall(path.read_text()):
            to = ACTION.search(form)
            goes_to = {to[1]} if to else {"an own address"} if name in OWN_ADDRESS else set()
            if to and to[1].partition("_")[0] == "account":
                continue  # signing in and out
            keyless = bool(goes_to & {*WITHOUT_KEY, "an own address"})
            if form.count("{{ once }}") != (0 if keyless else 1):
                bare.append((name, goes_to))
    assert bare == []


@pytest.mark.django_db
@pytest.mark.parametrize("name", sorted(SENDINGS))
def test_sent_twice_it_makes_one(client: Client, name: str) -> None:
    sending = SENDINGS[name]()
    client.force_login(UserFactory(role=sending.role))
    before = sending.makes._default_manager.count()
    data = {**sending.data, "once": str(uuid4())}
    answers: list[Any] = []
    for _ in range(2):
        if "picture" in data:
            data["picture"].seek(0)
        answers.append(client.post(reverse(name, kwargs=sending.parts), data))
    assert [one.status_code for one in answers] == [302, 302]
    assert answers[0]["Location"] == answers[1]["Location"]
    assert sending.makes._default_manager.count() - before == sending.rows
