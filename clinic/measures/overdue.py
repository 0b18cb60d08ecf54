"""Who should have been seen by now."""

from __future__ import annotations

from datetime import date, timedelta

from django.db.models import Count, Q

from clinic.follow_up.models import FollowUp
from clinic.measures import small_numbers
from clinic.measures.measure_types import Line, Measure

#: Groups by days overdue, each up to and with so many (design value); the last has no end.
UP_TO = ((7, "1 to 7 days"), (28, "8 to 28 days"), (None, "more than 28 days"))
#: A name for each line, the last for all of them.
LISTS = ("week", "month", "longer", "all")


def overdue(today: date) -> Measure:
    """One line a length of delay, and all of them."""
    numbers = _counted(today)
    told, total = small_numbers.parts(numbers)
    abouts = [*(words for _, words in UP_TO), "All"]
    rows = zip(abouts, [*told, total], [*numbers, sum(numbers)], LISTS, strict=True)
    return Measure(
        key="overdue",
        title="Follow-up overdue today",
        rule=(
            "Follow-up visits whose day has passed without a signed visit of that stoma. Today, "
            "whatever the dates above; the day last agreed counts, where it was moved."
        ),
        not_counted="Visits due today or later; stomas that were closed; visits begun, not signed, "
        "still count as overdue.",
        source="Counted in this record; groups are a design value of this page, no source",
        about="Overdue by",
        count_columns=("Follow-up visits",),
        figure_columns=(),
        units=(),
        lines=tuple(
            Line(about, (said,), (), inside=(str(number),), lists=(f"of=overdue&which={which}",))
            for about, said, number, which in rows
        ),
    )


def _counted(today: date) -> list[int]:
    """One query; a count a group."""
    asked = {f"group_{place}": Count("pk", filter=due) for place, due in enumerate(_dues(today))}
    found = FollowUp.objects.open().filter(due__lt=today).aggregate(**asked)
    return [found[f"group_{place}"] for place in range(len(UP_TO))]


def _dues(today: date) -> list[Q]:
    """What is due in each group."""
    dues, newest = [], today
    for days, _ in UP_TO:
        due = Q(due__lt=newest)
        if days is not None:
            newest = today - timedelta(days=days)
            due &= Q(due__gte=newest)
        dues.append(due)
    return dues


def due_in(which: str, today: date) -> Q:
    """Which next visits are behind a line of ``LISTS``."""
    return dict(zip(LISTS, [*_dues(today), Q(due__lt=today)], strict=True))[which]
