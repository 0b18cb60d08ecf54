"""Time to heal, by hand and against the rule for a single stoma."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from random import Random

import pytest

from clinic.measures.healing import QUERY, healing
from clinic.measures.period import Period
from clinic.measures.sql import counted
from clinic.visits.models import SkinAssessment, SkinFinding
from planning.statistics.healing import healing as stretches
from planning.statistics.incidence import damaged_kinds
from tests.clinic.measures.clinic_builders import START, YEAR, noon, skin_seen, stoma
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


def rows(period: Period = YEAR) -> list[tuple[int, bool, int]]:
    return counted(QUERY, period, damage=sorted(damaged_kinds()))


def course(*seen: bool | None, every: int = 7, start: date = START) -> None:
    one = stoma()
    for place, damaged in enumerate(seen):
        skin_seen(one, start + timedelta(every * place), damaged)


def test_from_first_found_to_first_intact() -> None:
    course(True, True, False, True)
    assert rows() == [(14, True, 1)]


def test_not_healed_counts_up_to_the_last_look() -> None:
    course(True, True, None)
    assert rows() == [(7, False, 1)]


def test_intact_skin_is_no_episode() -> None:
    course(False, False)
    assert rows() == []


def test_damage_from_before_these_dates_is_left_out() -> None:
    course(True, True, False, start=date(2024, 12, 28))
    assert rows() == []


def test_first_seen_in_these_dates_after_intact_skin() -> None:
    course(False, True, False, start=date(2024, 12, 28))
    assert rows() == [(7, True, 1)]


def test_what_heals_after_these_dates_has_not_healed_in_them() -> None:
    course(True, True, False, start=date(2025, 12, 20))
    assert rows() == [(7, False, 1)]


def test_a_patient_with_two_stomas_counts_once() -> None:
    one = stoma()
    other = StomaFactory(patient=one.patient, site="left lower")
    skin_seen(one, START, damaged=True)
    skin_seen(one, START + timedelta(7), damaged=False)
    skin_seen(other, START + timedelta(1), damaged=True)
    assert rows() == [(7, True, 1)]


def test_a_visit_that_is_not_signed_has_seen_nothing() -> None:
    draft = AssessmentFactory(visit__happened_at=noon(START))
    SkinAssessment.objects.create(assessment=draft, state="findings")
    SkinFinding.objects.create(assessment=draft, kind="erosion", hours=[6])
    assert rows() == []


def test_a_stretch_healed_before_these_dates_hides_none_in_them() -> None:
    course(True, False, True, False, start=date(2024, 12, 20))
    assert rows() == [(7, True, 1)]


def test_later_stretches_of_one_patient_do_not_count() -> None:
    course(True, False, True, True, False)
    assert rows() == [(7, True, 1)]


def test_veins_are_no_damage() -> None:
    skin_seen(stoma(), START, damaged=True, kind="dilated_veins")
    assert rows() == []


def test_as_for_a_single_stoma() -> None:
    """The database's count against planning.statistics.healing, on random courses."""
    random = Random(4)  # noqa: S311
    expected: Counter[tuple[int, bool]] = Counter()
    for _ in range(12):
        one = stoma()
        seen = [
            (START + timedelta(9 * place), random.choice([True, True, False, None]))
            for place in range(5)
        ]
        for day, damaged in seen:
            skin_seen(one, day, damaged)
        burdens = [(d, None if found is None else float(found)) for d, found in seen]
        if found := stretches(burdens):
            expected[found[0].days, found[0].healed] += 1
    assert {(days, done): n for days, done, n in rows()} == dict(expected)


def test_the_line_by_hand() -> None:
    """Five patients after 7, 7, 14, 14 and 21 days: half healed by day 14."""
    for weeks in (1, 1, 2, 2, 3):
        course(*[True] * weeks, False)
    (line,) = healing(YEAR).lines
    assert line.counts == ("5", "5")
    assert line.figures[0].value == "14"


def test_few_healed_are_hidden() -> None:
    for _ in range(4):
        course(True, False)
    (line,) = healing(YEAR).lines
    assert (*line.counts, line.figures[0].words) == ("fewer than 5", "not shown", "not shown")
    for _ in range(4):
        course(True, True)
    (line,) = healing(YEAR).lines
    assert (*line.counts, line.figures[0].words) == ("8", "not shown", "not shown")
