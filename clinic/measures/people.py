"""The people behind a number of the measures, for somebody who may open each record."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from django.db.models import Max, Q, QuerySet
from django.urls import reverse
from django.utils import timezone

from clinic import formatting
from clinic.measures import barriers, healing, incidence, overdue, prevalence, tried, wear
from clinic.measures import referral_response_time as answers
from clinic.measures.act_today import REASONS, Person, Reason
from clinic.measures.at_risk import KINDS, stomas
from clinic.measures.graded import CLASSES, GRADES, register, stomas_graded
from clinic.measures.group import Group
from clinic.measures.over_time import Quarter, quarter_words, quarters
from clinic.measures.period import Period
from clinic.paging import Leaf, leaf
from clinic.patients.models import Stoma
from clinic.referrals.models import Urgency


@dataclass(frozen=True)
class Listed:
    """``of_today``: it goes by neither months nor group."""

    title: str
    people: list[Person]
    leaf: Leaf[Any]
    of_today: bool = False


def people_behind(
    asked: Mapping[str, str], period: Period, group: Group, now: datetime
) -> Listed | None:
    """None where the address asks for no list there is. The same few queries for any number."""
    of = asked.get("of", "")
    if of in ROWS:
        return ROWS[of](asked, period, group, now)
    if of not in LISTS:
        return None
    behind = LISTS[of](asked, period, group, timezone.localdate(now))
    return None if behind is None else listed(*behind, asked)


def _today(asked: Mapping[str, str], _: Period, __: Group, now: datetime) -> Listed | None:
    reason = REASONS.get(asked.get("which", ""))
    if reason is None:
        return None
    return _rows(reason.title, reason.rows(now), reason, asked, now, of_today=True)


def _overdue(asked: Mapping[str, str], _: Period, __: Group, now: datetime) -> Listed | None:
    which, reason = asked.get("which", ""), REASONS["visits"]
    if which not in overdue.LISTS:
        return None
    rows = reason.rows(now).filter(overdue.due_in(which, timezone.localdate(now)))
    return _rows(reason.title, rows, reason, asked, now, of_today=True)


def _answers(
    asked: Mapping[str, str], period: Period, group: Group, now: datetime
) -> Listed | None:
    urgency, which = asked.get("kind", ""), asked.get("which", "")
    if urgency not in Urgency.values or which not in answers.LISTS:
        return None
    title = f"Referrals, {Urgency(urgency).label.lower()}: {answers.LISTS[which]}"
    rows = answers.referrals_behind(period, now, group, urgency, which)
    return _rows(title, rows, REASONS["referrals"], asked, now)


def _rows(
    title: str, rows: QuerySet[Any], reason: Reason, asked: Mapping[str, str], now: datetime,
    *, of_today: bool = False,
) -> Listed:  # fmt: skip
    """Rows that are no stomas, a page at a time, in the words of ``reason``."""
    page = leaf(rows, asked.get("page"))
    return Listed(title, list(reason.said(page.rows, now)), page, of_today=of_today)


#: Lists of something else than stomas.
ROWS = {"today": _today, "overdue": _overdue, "answers": _answers}
#: What a list is called, and its stomas; None where there is no such list.
Behind = tuple[str, list[int]] | None


def _incidence(asked: Mapping[str, str], period: Period, group: Group, _: date) -> Behind:
    kind, which = asked.get("kind", ""), asked.get("which", "")
    if kind not in KINDS or which not in incidence.COLUMNS:
        return None
    title = f"{KINDS[kind]}: {incidence.COLUMNS[which].lower()}"
    quarter = _quarter(asked.get("quarter", ""), period)
    if quarter:
        title += f", {quarter_words(quarter[0])}"
    return title, stomas(period, group, kind, standing=which, found_in=quarter)


def _prevalence(asked: Mapping[str, str], period: Period, group: Group, _: date) -> Behind:
    kind, which = asked.get("kind", ""), asked.get("which", "")
    if kind not in KINDS or which not in prevalence.COLUMNS:
        return None
    title = f"{KINDS[kind]} at the last visit: {prevalence.COLUMNS[which].lower()}"
    return title, stomas(period, group, kind, now=which)


def _tried(asked: Mapping[str, str], period: Period, group: Group, today: date) -> Behind:
    of, what, said = (asked.get(name, "") for name in ("of", "kind", "which"))
    judged = tried.tried(period, today, group, go_on=False)
    behind = tried.stomas_behind(judged, of, what, said)
    if behind is None:
        return None
    return f"{tried.what_words(of, what)}. {tried.words_of(of)[said]}", behind


def _graded(asked: Mapping[str, str], period: Period, group: Group, _: date) -> Behind:
    key = asked.get("kind", "")
    behind = stomas_graded(register(period, group), key)
    return None if behind is None else ({**GRADES, **CLASSES}[key], behind)


def _healing(asked: Mapping[str, str], period: Period, group: Group, _: date) -> Behind:
    which = asked.get("which", "")
    if which not in healing.LISTS:
        return None
    return healing.LISTS[which], healing.stomas_behind(period, group, which)


def _wear(asked: Mapping[str, str], period: Period, group: Group, _: date) -> Behind:
    profile, which = asked.get("kind", ""), asked.get("which", "")
    if profile not in wear.GROUPS or which not in wear.LISTS:
        return None
    title = f"{wear.LISTS[which]}, profile: {str(wear.GROUPS[profile]).lower()}"
    return title, barriers.stomas_behind(period, group, profile, which)


LISTS = {
    "healing": _healing,
    "wear": _wear,
    "incidence": _incidence,
    "prevalence": _prevalence,
    "tried": _tried,
    "earlier": _tried,
    "graded": _graded,
}


def _quarter(first: str, period: Period) -> Quarter | None:
    return next((one for one in quarters(period) if one[0].isoformat() == first), None)


def listed(title: str, found: Iterable[int], asked: Mapping[str, str]) -> Listed:
    """Stomas by the name of their person, a page at a time."""
    page = leaf(_by_name(found), asked.get("page"))
    return Listed(title, [_person(stoma) for stoma in page.rows], page)


def _by_name(found: Iterable[int]) -> QuerySet[Stoma]:
    signed = Q(assessments__visit__state="signed")
    rows = Stoma.objects.filter(pk__in=list(found)).select_related("patient")
    return rows.annotate(seen=Max("assessments__visit__happened_at", filter=signed)).order_by(
        "patient__family_name", "patient__given_name", "pk"
    )


def _person(stoma: Any) -> Person:
    seen = f"last visit {formatting.day(timezone.localdate(stoma.seen))}" if stoma.seen else ""
    closed = f"closed {formatting.day(stoma.closed_on)}" if stoma.closed_on else ""
    words = "; ".join(part for part in (stoma.short_name, seen, closed) if part)
    return Person(stoma.patient, words, "", reverse("trends:stoma", args=[stoma.uuid]))
