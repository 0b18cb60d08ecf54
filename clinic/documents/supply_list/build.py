"""The supplies of a decided plan as something to order from: generic, with codes and reasons."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from django.utils import timezone

from clinic.documents.patient_language.lay_terms import SITES, long_day
from clinic.documents.patient_language.said import english
from clinic.documents.printed.superseded import LaterVisit, seen_again
from clinic.documents.shared import Contact, Who, contact, who
from clinic.formatting import mm, number
from clinic.patients.models import Site, StomaKind
from clinic.plans.decided_change_day import WearDecided
from clinic.plans.models import ChosenCode
from clinic.plans.order_lines import BARRIER, OrderLine, order_lines
from clinic.plans.plan_with_decisions import DecidedPlan

#: UCUM's code for each unit an item is counted in.
UCUM = {"each": "{each}", "oz": "[oz_av]", "pack": "{pack}"}
LONG_NAME = 60


@dataclass(frozen=True)
class Item:
    """One line. ``by_hand``: the clinician put something else in its place, so size, amount and
    code are to be written in. Amounts None: used as needed, or not known."""

    text: str
    size: str
    unit: str
    until_next_visit: int | None
    until_at_most: int | None
    per_month: int | None
    code: str
    usual_maximum: float | None
    over: bool
    reason: str
    note: str
    code_note: str
    by_hand: bool
    #: How many changes there will be is not known: the amounts are to be written in.
    uncounted: bool = False
    #: Counted with another line of the same code against the maximum.
    together: bool = False

    @property
    def ucum(self) -> str:
        return "" if self.by_hand else UCUM[self.unit]

    @property
    def by_feel(self) -> bool:
        """Used as needed: no one can say how long it lasts."""
        return self.per_month is None and not self.by_hand and not self.uncounted

    @property
    def amount(self) -> str:
        """Until the next visit: *6*, or *6 to 8* where the person's own log says so; "" where
        it is not known."""
        if self.until_next_visit is None:
            return ""
        more = self.until_at_most
        wide = more is not None and more != self.until_next_visit
        return f"{self.until_next_visit} to {more}" if wide else str(self.until_next_visit)

    @property
    def maximum_words(self) -> str:
        return "" if self.usual_maximum is None else number(round(self.usual_maximum, 2))

    @property
    def maximum_with_unit(self) -> str:
        """The same with its unit, where that is not pieces: *1.67 oz*."""
        unit = "" if self.unit == "each" or not self.maximum_words else f" {self.unit}"
        return f"{self.maximum_words}{unit}"


@dataclass(frozen=True)
class Over:
    """What is over the usual monthly maximum of its code: the lines of one code count together."""

    items: tuple[Item, ...]

    @property
    def words(self) -> str:
        """``Ring and ring to halve: 15 together a month, usually at most 10``."""
        names = [self.items[0].text, *(_lower(item.text) for item in self.items[1:])]
        total = sum(item.per_month or 0 for item in self.items)
        together = " together" if len(self.items) > 1 else ""
        most = self.items[0].maximum_words
        return f"{' and '.join(names)}: {total}{together} a month, usually at most {most}"


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


@dataclass(frozen=True)
class SupplyList:
    """Everything to order for one stoma. ``counted``: amounts until the next visit hold; the
    plan counted them to the day it proposed, and not to another that the clinician set."""

    who: Who[str]
    contact: Contact[str]
    visit_day: date
    next_visit: date | None
    counted_to: date | None
    counted: bool
    stoma: str
    signed: bool
    signed_by: str
    signed_on: date | None
    items: tuple[Item, ...]
    left_out: tuple[str, ...]
    codes: tuple[ChosenCode, ...]
    #: What was counted where the change day was changed from the plan; "" where it was not.
    change_day: str = ""
    #: The day of a size too old to order by, "" where it is not.
    measured_long_ago: str = ""
    #: The later signed visit of the stoma, whose list is the one to order by.
    newer: LaterVisit | None = None
    #: Whether the next visit's day is over, so that amounts until then are used up.
    passed: bool = False

    @property
    def unsigned(self) -> bool:
        return not self.signed

    @property
    def long_name(self) -> bool:
        return len(self.who.name) > LONG_NAME

    @property
    def facts(self) -> tuple[str, ...]:
        return (f"Visit {english(long_day(self.visit_day))}", self.stoma)

    @property
    def over(self) -> tuple[Over, ...]:
        """What is over the usual monthly maximum, one for each code."""
        found: dict[str, list[Item]] = {}
        for item in self.items:
            if item.over:
                found.setdefault(item.code, []).append(item)
        return tuple(Over(tuple(items)) for items in found.values())

    @property
    def until(self) -> str:
        return english(long_day(self.next_visit)) if self.next_visit else ""

    @property
    def counted_words(self) -> str:
        return english(long_day(self.counted_to)) if self.counted_to else ""

    @property
    def signed_words(self) -> str:
        """By whom and when the visit was signed; "" for a draft."""
        return f"{self.signed_by}, {english(long_day(self.signed_on))}" if self.signed_on else ""


def supply_list(decided: DecidedPlan, today: date | None = None) -> SupplyList:
    """What was accepted as counted, what was changed and is to be written in, what was dropped
    by name. ``today``: the day it is printed, where not given."""
    today = today or timezone.localdate()
    assessment, visit = decided.assessment, decided.assessment.visit
    lines, due = order_lines(decided), decided.next_visit
    counted = due is not None and due == decided.counted_to
    site, kind = Site(assessment.stoma.site), StomaKind(assessment.stoma.kind)
    return SupplyList(
        who=english(who(visit.patient)),
        contact=english(contact()),
        visit_day=timezone.localdate(visit.happened_at),
        next_visit=due,
        counted_to=decided.counted_to,
        counted=counted,
        stoma=f"{kind.label}, {SITES[site].replace('your', 'the')}",
        signed=decided.signed,
        signed_by=visit.signed_by.display_name if visit.signed_by else "",
        signed_on=timezone.localdate(visit.signed_at) if visit.signed_at else None,
        items=_judged([_item(one, decided, counted=counted) for one in lines if not one.dropped]),
        left_out=(
            *(line.quantity.text for line in lines if line.dropped),
            *(one.instead_of for one in decided.left_off),
        ),
        codes=tuple(assessment.codes.all()),
        change_day=_change_day(decided.wear_decided),
        measured_long_ago=_measured_long_ago(decided, today),
        newer=seen_again([assessment]).get(assessment.pk),
        passed=due is not None and due < today,
    )


def _change_day(wear: WearDecided | None) -> str:
    if wear is None:
        return ""
    if wear.days is not None:
        every = "day" if wear.days == 1 else f"{number(wear.days)} days"
        return f"Amounts are for a change every {every}, as the clinician decided."
    what = (
        f"The change day was changed from the plan: {wear.words.rstrip('.')}."
        if wear.words
        else "The planned change day was dropped."
    )
    return f"{what} The number of changes is not known: enter the amounts."


def _measured_long_ago(decided: DecidedPlan, today: date) -> str:
    if decided.too_old_to_cut(today) is None:
        return ""
    return english(long_day(timezone.localdate(decided.assessment.visit.happened_at)))


def _item(line: OrderLine, decided: DecidedPlan, *, counted: bool) -> Item:
    amount = line.quantity
    if not line.as_planned:
        reason = "; ".join(filter(None, (one.reason for one in line.rests_on)))
        return Item(line.own_words, "", "", None, None, None, "", None, False, reason, "", "", True)
    return Item(
        text=amount.text,
        size=_size(line, decided),
        unit=amount.unit,
        until_next_visit=amount.until_next_visit if counted else None,
        until_at_most=amount.until_at_most if counted else None,
        per_month=amount.per_month,
        code=amount.code or "",
        usual_maximum=amount.usual_monthly_maximum,
        over=bool(amount.over_maximum),
        reason=line.reason,
        note=amount.note or "",
        code_note=amount.code_note or "",
        by_hand=False,
        uncounted=line.uncounted,
    )


def _judged(items: list[Item]) -> tuple[Item, ...]:
    """Held against the maximum of the code by what is on this list: what was dropped or changed
    no longer counts."""
    months: dict[str, list[int]] = {}
    for item in items:
        if item.usual_maximum is not None and item.per_month is not None:
            months.setdefault(item.code, []).append(item.per_month)
    return tuple(
        replace(
            item,
            over=sum(months[item.code]) > item.usual_maximum,
            together=len(months[item.code]) > 1,
        )
        if item.usual_maximum is not None and item.per_month is not None
        else item
        for item in items
    )


def _size(line: OrderLine, decided: DecidedPlan) -> str:
    """Of the barrier and its opening; nothing else has a size that the plan knows."""
    if line.quantity.supply_key != BARRIER:
        return ""
    sizes, supplies = decided.plan.dimensions, decided.plan.supplies
    parts = []
    if sizes.convex_depth_class:
        depth = f", {mm(round(sizes.convex_depth_mm, 1))}" if sizes.convex_depth_mm else ""
        parts.append(f"dome {sizes.convex_depth_class}{depth}")
    if sizes.plateau_mm is not None:
        parts.append(f"flat middle at least {mm(round(sizes.plateau_mm, 1))}")
    if _opening_as_planned(decided) and sizes.opening_length_mm and sizes.opening_width_mm:
        kind = next((words for key, words in _OPENINGS.items() if key in supplies), "opening")
        parts.append(f"{kind} {_pair(sizes.opening_length_mm, sizes.opening_width_mm)}")
    return "; ".join(parts)


_OPENINGS = {
    "pre_cut": "ready-cut opening",
    "mouldable": "opening to roll",
    "cut_to_fit": "opening to cut",
}


def _opening_as_planned(decided: DecidedPlan) -> bool:
    decisions = [one.as_planned for one in decided.recommendations if one.key == "opening"]
    return all(decisions)


def _pair(length: float, width: float) -> str:
    if abs(length - width) < 0.05:
        return mm(round(length, 1))
    return f"{number(round(length, 1))} × {mm(round(width, 1))}"
