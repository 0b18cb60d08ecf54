"""The register by grade and class, by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest

from clinic.complications.choices import Kind, MeasuredBy
from clinic.measures.graded import graded, register, stomas_graded
from clinic.measures.group import Group
from clinic.measures.measure_types import Line
from clinic.measures.period import Period
from tests.clinic.measures.clinic_builders import YEAR
from tests.factories.complications import ComplicationFactory
from tests.factories.patients import StomaFactory

pytestmark = pytest.mark.django_db

SPRING = Period(YEAR.since.replace(month=3), YEAR.since.replace(month=5, day=31))


def lines(period: Period = YEAR, group: Group | None = None) -> dict[str, Line]:
    found = register(period, group or Group())
    return {line.about.partition(":")[0]: line for line in graded(found).lines}


def test_complications_and_their_stomas_by_grade() -> None:
    stoma = StomaFactory()
    for _ in range(2):
        ComplicationFactory(stoma=stoma, grade="II", found_on="2025-03")
    for _ in range(5):
        ComplicationFactory(grade="II", found_on="2025-03-09")
        ComplicationFactory(found_on="2025-04")
    found = lines()
    assert found["II"].counts == found["II"].inside == ("6", "7")
    assert found["Not graded"].counts == ("5", "5")
    assert found["IIIa"].counts == ("0", "0")
    key = found["II"].lists[0]
    assert key == "of=graded&kind=II&which=all"
    assert stoma.pk in (stomas_graded(register(YEAR), "II") or [])
    assert stomas_graded(register(YEAR), "VI") is None


def test_few_of_one_grade_are_hidden_outside() -> None:
    for _ in range(9):
        ComplicationFactory(grade="I", found_on="2025-03")
    ComplicationFactory(grade="V", found_on="2025-03")
    found = lines()
    assert found["V"].counts == ("fewer than 5", "not shown")
    assert found["I"].counts == ("not shown", "not shown")
    assert (found["I"].inside, found["V"].inside) == (("9", "9"), ("1", "1"))


def test_hernias_by_the_class_that_was_measured() -> None:
    for size, incisional in (("5.0", False), ("5.1", True), ("6", None)):
        ComplicationFactory(
            kind=Kind.HERNIA, defect_cm=Decimal(size), incisional=incisional,
            measured_by=MeasuredBy.CT, found_on="2025-03",
        )  # fmt: skip
    found = lines()
    seen = {about: line.inside[0] for about, line in found.items() if about.startswith("Hernia")}
    assert seen == {
        "Hernia of class I": "1", "Hernia of class II": "0", "Hernia of class III": "0",
        "Hernia of class IV": "1", "Hernia, confirmed, without a class": "1",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("found_on", "dated"),
    [
        ("2025-03-01", True),
        ("2025-05-31", True),
        ("2025-03", True),
        ("2025-05", True),
        ("2025-02", False),
        ("2025-06-01", False),
        ("2024", False),
        # Of these months or not: the year alone does not say.
        ("2025", None),
        ("", None),
    ],
)
def test_what_is_known_in_part_is_never_guessed(found_on: str, dated: bool | None) -> None:
    ComplicationFactory(grade="II", found_on=found_on)
    found = register(SPRING)
    assert (len(found.lines.get("II", ())), found.undated) == (int(bool(dated)), dated is None)


def test_only_the_group() -> None:
    ComplicationFactory(grade="II", found_on="2025", stoma__kind="urostomy")
    assert lines(group=Group(stoma="urostomy"))["II"].inside[0] == "1"
    assert lines(group=Group(stoma="colostomy"))["II"].inside[0] == "0"
