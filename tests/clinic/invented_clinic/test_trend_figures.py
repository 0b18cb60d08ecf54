"""The trend's figures of the invented clinic: nothing lies on anything else. Each stoma with many
visits, and every fourth of the others, which are much alike.

One drawing is shown at every width, so what is apart here is apart on a desk and on a phone; the
browser's own type is measured in ``tests/browser/test_trend.py``.
"""

from collections.abc import Iterator

import pytest

from clinic.patients.models import Stoma
from clinic.plans.course import course_of, course_report
from clinic.trends.figure import TrendFigure, figure
from clinic.trends.window import window_of
from fixtures.invented_clinic.load import Loaded
from tests.clinic.trends.geometry import collisions

pytestmark = pytest.mark.django_db

#: Visits from which a figure is crowded.
MANY = 7


def figures() -> Iterator[tuple[str, TrendFigure]]:
    """What each trend page draws, and the whole course where that is more."""
    for number, stoma in enumerate(Stoma.objects.select_related("patient").order_by("pk")):
        course = course_of(stoma)
        if len(course.visits) < MANY and number % 4:
            continue
        if not course.visits:
            continue
        series = course_report(course).series
        days = sorted(visit.day for visit in course.visits)
        for whole in (False, True):
            window = window_of(series, days, course.today, whole=whole)
            if not whole or window.part:
                yield (
                    f"{stoma.patient.family_name}, {window.words}",
                    figure(series, course.events, today=course.today, since=window.since),
                )


def test_no_mark_or_label_lies_on_another(loaded: Loaded) -> None:
    found, drawn = [], 0
    for whose, one in figures():
        if one.is_empty:
            continue
        for key, sheet in one.sheets().items():
            drawn += 1
            found += [f"{whose}, {key}: {what}" for what in collisions(sheet)]
    assert found == []
    assert drawn > 60
