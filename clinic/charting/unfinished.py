"""What keeps a visit from being signed: beside its field where it has one, and listed on top."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse

from clinic.charting.page import ChartPage
from clinic.plans.actions.sign import Problem


@dataclass(frozen=True)
class Unfinished:
    """One line of the list; ``href`` leads to where it is corrected."""

    href: str
    message: str


def unfinished(page: ChartPage, problems: Iterable[Problem]) -> list[Unfinished]:
    """What is listed besides the fields of ``page``, which are given their own words here."""
    lines = []
    for problem in problems:
        is_decision = problem.field.startswith("decision-")
        if problem.assessment.pk != page.assessment.pk:
            lines.append(_at_another_stoma(problem, is_decision=is_decision))
        elif is_decision:
            lines.append(Unfinished(f"#{problem.field}", problem.message))
        elif not page.mentions(problem.field):
            page.say(problem.field, problem.message)
    return lines


def _at_another_stoma(problem: Problem, *, is_decision: bool) -> Unfinished:
    """Each stoma of the visit has a page of its own."""
    there = reverse("charting:chart", args=[problem.assessment.uuid])
    place = f"#{problem.field}" if is_decision else ""
    stoma = problem.assessment.stoma
    return Unfinished(f"{there}{place}", f"{stoma.short_name}: {problem.message}")
