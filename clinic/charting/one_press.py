"""Buttons that record several values at once: put into what is posted, then saved like it."""

from __future__ import annotations

import uuid
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from django.http import QueryDict
from django.utils import timezone

from clinic.accounts.models import User
from clinic.plans.photo_or_ruler import values_from
from clinic.visits.as_last import offers_of
from clinic.visits.chart import CLOSED, Chart
from clinic.visits.choices import VisitHeld
from clinic.visits.models import Assessment, Confirmation, PhotoMeasurement
from clinic.visits.queries import previous_assessment
from clinic.visits.questions.page import BY_KEY, UNSEEN_BY_TELEPHONE, UNSEEN_UNDER_POUCH
from clinic.visits.wear_log.still_on import still_on

QUICK, AS_LAST, CAME_OFF = "quick-", "as-last-", "came-off-"
TELEPHONE, WARD = "by-telephone", "on-the-ward"
#: How a visit was held -> what no one saw then.
UNSEEN = {
    TELEPHONE: (VisitHeld.TELEPHONE, UNSEEN_BY_TELEPHONE),
    WARD: (VisitHeld.WARD, UNSEEN_UNDER_POUCH),
}
#: A photo and the ruler give two sizes: which one is right; the photo's id follows.
PHOTO_IS_RIGHT, RECORDED_IS_RIGHT = "photo-right-", "recorded-right-"
#: They stay at their place on the page.
ONE_PRESS = (QUICK, AS_LAST, CAME_OFF, TELEPHONE, WARD, PHOTO_IS_RIGHT, RECORDED_IS_RIGHT)
ALL = "all"


def place_of(press: str) -> str:
    """Where on the page one goes on after a press, as the end of its address."""
    if press in {"plan", "accept-rest"}:
        return "#plan"
    if press.startswith(QUICK):
        return f"#q-{press.removeprefix(QUICK)}"
    if press.startswith(CAME_OFF):
        return "#wear"
    if press.startswith((PHOTO_IS_RIGHT, RECORDED_IS_RIGHT)):
        return "#stoma"
    if press.startswith(AS_LAST) and not press.endswith(ALL):
        return f"#{press.removeprefix(AS_LAST)}"
    return ""


@dataclass(frozen=True)
class Confirmed:
    """A section recorded as at the last visit: what was filled in."""

    section: str
    fields: tuple[str, ...]
    against: Assessment


def fill_in(
    press: str, data: QueryDict, assessment: Assessment, anew: Callable[[], dict[str, str]]
) -> list[Confirmed]:
    """Fill in what the button records, only where nothing is entered; what was confirmed against
    the last visit. A photo's size alone takes the place of the one entered: it was chosen over it.
    ``anew``: what is measured at each visit -> why, asked only where it matters.
    Any other press fills in nothing.
    """
    if press.startswith(QUICK):
        _quick(press.removeprefix(QUICK), data)
    elif press.startswith(CAME_OFF):
        _came_off(press.removeprefix(CAME_OFF), data, assessment)
    elif press in UNSEEN:
        _not_seen(*UNSEEN[press], data, assessment)
    elif press.startswith(PHOTO_IS_RIGHT):
        _photo_is_right(photo_in(press), data, assessment)
    elif press.startswith(AS_LAST):
        return _as_last(press.removeprefix(AS_LAST), data, assessment, anew())
    return []


def store(confirmed: list[Confirmed], assessment: Assessment, by: User) -> bool:
    """Who confirmed what, and when. True where there was anything to store."""
    for one in confirmed:
        Confirmation.objects.create(
            assessment=assessment,
            section=one.section,
            against=one.against,
            fields=list(one.fields),
            by=by,
            at=timezone.now(),
        )
    return bool(confirmed)


def _quick(key: str, data: QueryDict) -> None:
    question = BY_KEY.get(key)
    if question is None or question.quick is None:
        return
    values = question.quick.values
    # Something else is charted there: then the button's words are not what was found.
    if not any(value for name in values for value in data.getlist(name)):
        for name, value in values.items():
            data[name] = value


def _not_seen(
    held: VisitHeld, sections: Iterable[str], data: QueryDict, assessment: Assessment
) -> None:
    """What no one saw is marked so, unless something is charted there."""
    data["visit-held"] = held
    chart = Chart(assessment, data=data)
    chart.check()
    closed = data.getlist(CLOSED)
    unseen = [key for key in sections if not chart.is_filled(key)]
    data.setlist(CLOSED, [*closed, *(key for key in unseen if key not in closed)])


def photo_in(press: str) -> uuid.UUID | None:
    """The photo that a button names, if it names one."""
    try:
        return uuid.UUID(press.removeprefix(PHOTO_IS_RIGHT).removeprefix(RECORDED_IS_RIGHT))
    except ValueError:
        return None


def _photo_is_right(photo: uuid.UUID | None, data: QueryDict, assessment: Assessment) -> None:
    measured = PhotoMeasurement.objects.filter(photo__assessment=assessment)
    found = measured.filter(photo=photo).first()
    if found is None:
        return
    # Radii go before length and width: where they are in use, the photo's take their place.
    radii = any(data.get(f"stoma-radii_mm_{hour}") for hour in range(1, 13))
    for name, values in values_from(found, radii=radii).items():
        data.setlist(name, values)


def _came_off(reason: str, data: QueryDict, assessment: Assessment) -> None:
    barrier = still_on(assessment)
    if barrier is None:
        return
    key = str(uuid.uuid4())
    data.appendlist("wear-row", key)
    data[f"wear-{key}-on"] = barrier.on.isoformat()
    if reason in dict(barrier.reasons):
        data[f"wear-{key}-off"] = barrier.today.isoformat()
        data[f"wear-{key}-reason"] = reason


def _as_last(
    section: str, data: QueryDict, assessment: Assessment, anew: dict[str, str]
) -> list[Confirmed]:
    previous = previous_assessment(assessment)
    if previous is None:
        return []
    offers = offers_of(Chart(assessment), previous, anew, dict(data.lists()))
    return [
        Confirmed(offer.section, tuple(offer.into(data)), previous)
        for offer in offers.values()
        if section in {ALL, offer.section}
    ]
