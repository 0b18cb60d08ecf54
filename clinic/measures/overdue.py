"""Who should have been seen by now."""

from __future__ import annotations

from datetime import date, timedelta

from django.db.models import Count, Q

from clinic.follow_up.models import FollowUp
from clinic.measures import small_numbers
from clinic.measures.measure_types import Line, Measure

#: Groups by days overdue, each up to and with so many (design value); the last has no end.
UP_TO = ((7, "1 to 7 days"), (28, "8 to 28 days"), (None, "more than 28 days"))


def overdue(today: date) -> Measure:
    """One line a length of delay, and all of them."""
    told, total = small_numbers.parts(_counted(today))
    rows = [*zip((words for _, words in UP_TO), told, strict=True), ("All", total)]
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
        lines=tuple(Line(words, (number,), ()) for words, number in rows),
    )


def _counted(today: date) -> list[int]:
    """One query; a count a group."""
    asked, newest = {}, today
    for place, (days, _) in enumerate(UP_TO):
        due = Q(due__lt=newest)
        if days is not None:
            newest = today - timedelta(days=days)
            due &= Q(due__gte=newest)
        asked[f"group_{place}"] = Count("pk", filter=due)
    found = FollowUp.objects.open().filter(due__lt=today).aggregate(**asked)
    return [found[f"group_{place}"] for place in range(len(UP_TO))]
