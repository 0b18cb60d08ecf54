"""What many stomas' plans began, for which need, and how each of those plans did since."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from django.utils import timezone

from clinic.plans.course import begun_of, plans_of_many, signed_visit, worn_of
from clinic.plans.models import PlanSnapshot
from clinic.visits.wear_log.whole_log import Logged, logs_of
from planning.course.outcome import outcome_of
from planning.course.periods import in_order
from planning.course.record import Course
from planning.evidence.rule_set import RULE_SET
from planning.inputs.findings import StomaKind
from planning.needs.register import NEEDS
from planning.restraint.ladders import LADDER_NEEDS
from planning.supplies.catalogue import SUPPLIES

#: Whose verdicts they are.
RULES = RULE_SET
_TITLES = {need.key: need.title for need in (*NEEDS, *LADDER_NEEDS)}


@dataclass(frozen=True, slots=True)
class Trial:
    """One supply begun for one need by the plan of one visit; ``verdict`` is the plan's. Of a
    plan that began two, which did it is not known: both have its verdict."""

    stoma: int
    need: str
    supply: str
    verdict: str


def need_words(need: str) -> str:
    """What a need asks, in the words of the page of rules.

    >>> need_words("fill_crease")
    'Fill the crease to skin level'
    """
    return _TITLES.get(need, need.replace("_", " "))


def supply_words(supply: str) -> str:
    """The generic name; a supply of an earlier catalogue is called by its key.

    >>> supply_words("ring")
    'mouldable ring'
    """
    found = SUPPLIES.get(supply)
    return found.name if found else supply.replace("_", " ")


def trials_of(stomas: Collection[int], since: date, until: date, today: date) -> list[Trial]:
    """Of plans signed on days from ``since`` to ``until``, as known on ``today``. Four queries,
    however many stomas there are."""
    logs = logs_of(stomas)
    plans = groupby(plans_of_many(stomas), key=lambda plan: plan.assessment.stoma_id)
    return [
        trial
        for stoma, own in plans
        for trial in _trials(list(own), logs.get(stoma), since, until, today)
    ]


def _trials(
    plans: list[PlanSnapshot],
    log: tuple[Logged, ...] | None,
    since: date,
    until: date,
    today: date,
) -> Iterator[Trial]:
    begun = {place: _pairs(plan) for place, plan in enumerate(plans)}
    asked = [
        place for place, pairs in begun.items() if pairs and since <= _day(plans[place]) <= until
    ]
    if not asked:
        return
    stoma = plans[0].assessment.stoma
    course = in_order(
        Course(
            kind=StomaKind(stoma.kind),
            today=today,
            visits=tuple(signed_visit(plan) for plan in plans),
            worn=worn_of(log),
            surgery=stoma.surgery_date,
            closed=stoma.closed_on,
        )
    )
    for place in asked:
        verdict = str(outcome_of(course, place).verdict)
        for need, supply in begun[place]:
            yield Trial(stoma.pk, need, supply, verdict)


def _pairs(plan: PlanSnapshot) -> Iterable[tuple[str, str]]:
    """Each need with each supply begun for it, once."""
    pairs = [
        (need, item["key"])
        for item in begun_of(plan)
        if item["key"] in SUPPLIES
        for need in item["need_keys"]
    ]
    return list(dict.fromkeys(pairs))


def _day(plan: PlanSnapshot) -> date:
    return timezone.localdate(plan.assessment.visit.happened_at)
