"""What the last visit found, by hand."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from clinic.measures.at_risk import KINDS, counts
from clinic.measures.measure_types import Line
from clinic.measures.prevalence import prevalence
from clinic.patients.models import Stoma
from clinic.visits.choices import Junction, Presence
from tests.clinic.measures.clinic_builders import START, YEAR, sign_off, skin_seen, stoma, visited
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


def line(kind: str) -> Line:
    found = {one.about: one for one in prevalence(counts(YEAR), []).lines}
    return found[KINDS[kind]]


def several(number: int, **charted: Any) -> list[Stoma]:
    return [visited(**charted).stoma for _ in range(number)]


def test_an_empty_clinic_has_nothing_to_say() -> None:
    for kind in KINDS:
        assert line(kind).counts == ("0", "0", "0")
        assert line(kind).figures[0].words == "no data"


@pytest.mark.parametrize(
    ("kind", "charted"),
    [
        ("skin", {"leaking": True}),
        ("leak", {"leaking": True}),
        ("retraction", {"retracted": True}),
        ("retraction", {"well_fitting": True, "measurement__protrusion_mm": -5}),
        ("prolapse", {"prolapse": True}),
        ("bulge", {"hernia": True}),
        (
            "separation",
            {
                "well_fitting": True,
                "measurement__junction": Junction.SEPARATED,
                "measurement__separation_hours": [6],
            },
        ),
    ],
)
def test_five_of_ten(kind: str, charted: dict[str, Any]) -> None:
    """Clopper and Pearson: 5 of 10 is 50 (18.7 to 81.3)."""
    several(5, **charted)
    several(5, well_fitting=True)
    assert line(kind).counts == ("5", "5", "0")
    assert line(kind).figures[0].words == "50.0 (18.7 to 81.3)"


def test_less_than_five_millimetres_below_is_not_retracted() -> None:
    several(6, well_fitting=True, measurement__protrusion_mm=-4.9)
    assert line("retraction").counts == ("0", "6", "0")


def test_not_recorded_is_not_none() -> None:
    several(5, well_fitting=True)
    several(6)
    several(7, well_fitting=True, measurement__prolapse="", system__leak_hours=None)
    assert line("prolapse").counts == ("0", "5", "13")
    assert line("leak").counts == ("0", "5", "13")
    assert line("skin").counts == ("0", "12", "6")


def test_the_last_visit_that_looked_counts_and_each_stoma_once() -> None:
    for one in several(5, prolapse=True):
        visited(one, START + timedelta(30), well_fitting=True)
        visited(one, START + timedelta(60), well_fitting=True, measurement__prolapse="")
    for one in several(6, well_fitting=True):
        visited(one, START + timedelta(30), prolapse=True)
    assert line("prolapse").counts == ("6", "5", "0")


def test_veins_are_no_skin_damage() -> None:
    for _ in range(5):
        skin_seen(stoma(), START, damaged=True, kind="dilated_veins")
    for _ in range(5):
        skin_seen(stoma(), START, damaged=True)
    assert line("skin").counts == ("5", "5", "0")


def test_only_signed_visits_in_these_dates() -> None:
    several(5, prolapse=True)
    for day in (date(2024, 12, 31), date(2026, 1, 1)):
        visited(day=day, prolapse=True)
    AssessmentFactory(prolapse=True)
    # That of the year before is of these dates too, but no one looked.
    assert line("prolapse").inside[:3] == ("5", "0", "1")
    for day in (date(2025, 1, 1), date(2025, 12, 31)):
        visited(day=day, prolapse=True)
    assert line("prolapse").inside[:3] == ("7", "0", "1")


def test_the_first_moment_of_the_next_day_is_past_these_dates() -> None:
    several(5, prolapse=True)
    for moment in (YEAR.begins, YEAR.ends):
        made = AssessmentFactory(prolapse=True, visit__happened_at=moment, worn=None)
        sign_off(made.visit)
    assert line("prolapse").counts == ("6", "0", "0")


def test_few_are_hidden_and_no_rate_rests_on_them() -> None:
    several(4, prolapse=True)
    assert line("prolapse").counts == ("fewer than 5", "0", "0")
    assert line("prolapse").figures[0].words == "not shown"
    assert line("prolapse").inside == ("4", "0", "0", "100.0 (39.8 to 100.0)")
    several(6, well_fitting=True)
    assert line("prolapse").counts == ("fewer than 5", "not shown", "0")
    assert line("prolapse").figures[0].words == "not shown"


def test_bulge_recorded_as_none_is_looked_at() -> None:
    several(5, well_fitting=True, abdomen__bulge=Presence.NONE)
    several(5, well_fitting=True, abdomen__bulge="")
    assert line("bulge").counts == ("0", "5", "5")
