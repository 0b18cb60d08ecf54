"""What is new over stoma-months, by hand; and that no other figure gives a hidden one away."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from clinic.measures.at_risk import FREE, HAD, NEW, NOT_LOOKED, START_UNKNOWN, counts, over_spans
from clinic.measures.at_risk import stomas as stomas_behind
from clinic.measures.group import EVERYONE, Group
from clinic.measures.incidence import incidence
from clinic.measures.measure_types import Line
from clinic.measures.report import for_file, measures
from clinic.patients.models import Stoma
from clinic.patients.models.stoma import StomaKind
from tests.clinic.measures.clinic_builders import YEAR, noon, visited
from tests.factories.patients import StomaFactory

pytestmark = pytest.mark.django_db

Look = tuple[date, bool | None]
BEFORE, MARCH, JUNE = date(2024, 10, 1), date(2025, 3, 2), date(2025, 6, 30)
LONG_AGO, IN_YEAR = date(2020, 1, 1), date(2025, 2, 1)


def seen(looks: list[Look], surgery: date | None = LONG_AGO, closed: date | None = None,
         **more: Any) -> Stoma:  # fmt: skip
    """A stoma looked at for prolapse: found, not found, or (None) not recorded."""
    made: Stoma = StomaFactory(surgery_date=surgery, surgery_date_unknown=surgery is None, **more)
    for day, found in looks:
        charted: dict[str, Any] = {"prolapse": True} if found else {"well_fitting": True}
        if found is None:
            charted["measurement__prolapse"] = ""
        visited(made, day, **charted)
    Stoma.objects.filter(pk=made.pk).update(closed_on=closed)
    return made


#: Looks, surgery, closed -> what became of the stoma, and its days at risk.
BY_HAND = [
    # Not there at the last look before: at risk from the first day, until it is found.
    ([(BEFORE, False), (MARCH, True)], LONG_AGO, None, NEW, 60),
    # What came after it was found counts no more, nor does a second time.
    ([(BEFORE, False), (MARCH, True), (JUNE, False)], LONG_AGO, None, NEW, 60),
    ([(BEFORE, False), (MARCH, False), (JUNE, True)], LONG_AGO, None, NEW, 180),
    # Until the last look, not beyond it; a visit that did not record it is no look.
    ([(BEFORE, False), (MARCH, False), (JUNE, None)], LONG_AGO, None, FREE, 60),
    # Made in the year: at risk from surgery, and what the first look finds is new.
    ([(MARCH, True)], IN_YEAR, None, NEW, 29),
    ([(MARCH, False), (JUNE, False)], IN_YEAR, None, FREE, 149),
    # There at the last look before: cannot be new, even if it was gone between.
    ([(BEFORE, True), (MARCH, False), (JUNE, True)], LONG_AGO, None, HAD, 0),
    # Gone again at the last look before: it can be new.
    ([(date(2024, 5, 1), True), (BEFORE, False), (MARCH, True)], LONG_AGO, None, NEW, 60),
    # There when first looked at, long after surgery or no one knows how long: unknown.
    ([(MARCH, True)], LONG_AGO, None, START_UNKNOWN, 0),
    ([(MARCH, True)], None, None, START_UNKNOWN, 0),
    ([(BEFORE, None), (MARCH, True)], LONG_AGO, None, START_UNKNOWN, 0),
    # Not there when first looked at: at risk from then.
    ([(MARCH, False), (JUNE, True)], LONG_AGO, None, NEW, 120),
    ([(MARCH, False), (JUNE, True)], None, None, NEW, 120),
    # No one looked.
    ([(BEFORE, False)], LONG_AGO, None, NOT_LOOKED, 0),
    ([(BEFORE, True), (MARCH, None)], LONG_AGO, None, NOT_LOOKED, 0),
    # Closed: never at risk beyond that day.
    ([(BEFORE, False), (MARCH, False)], LONG_AGO, date(2025, 2, 1), FREE, 31),
]  # fmt: skip


@pytest.mark.parametrize(("looks", "surgery", "closed", "standing", "days"), BY_HAND)
def test_what_became_of_one_stoma(
    looks: list[Look], surgery: date | None, closed: date | None, standing: str, days: int
) -> None:
    one = seen(looks, surgery, closed)
    found = counts(YEAR)["prolapse"][""]
    assert {name: n for name, n in found.standing.items() if n} == {standing: 1}
    assert (found.days if found.at_risk else 0) == days
    assert stomas_behind(YEAR, EVERYONE, "prolapse", standing=standing) == [one.pk]


def test_a_stoma_closed_before_or_seen_after_is_not_of_these_dates() -> None:
    seen([(BEFORE, True)], closed=date(2024, 12, 31))
    seen([(date(2026, 1, 1), True)])
    assert counts(YEAR)["prolapse"] == {}


def line(found: Any, about: str = "Prolapse") -> Line:
    return next(one for one in found.lines if one.about == about)


def test_the_figure() -> None:
    """6 in 6 × 60 + 5 × 180 = 1,260 days, 41.397 months: 14.494 per 100. Garwood: 2.2019 and
    13.0595 in as many."""
    for _ in range(6):
        seen([(BEFORE, False), (MARCH, True)])
    for _ in range(5):
        seen([(BEFORE, False), (JUNE, False)])
    said = line(incidence(counts(YEAR), []))
    assert said.counts == ("6", "5", "0", "0", "0", "41.4")
    assert said.figures[0].words == "14.5 (5.3 to 31.5)"


def test_one_small_count_hides_the_row_outside_and_not_inside() -> None:
    """The kinds of finding share one total, which would give it away."""
    for _ in range(6):
        seen([(BEFORE, False), (MARCH, True)])
    for _ in range(7):
        seen([(BEFORE, False), (JUNE, False)])
    seen([(BEFORE, True), (MARCH, True)])
    said = line(incidence(counts(YEAR), []))
    assert said.counts == ("not shown", "not shown", "fewer than 5", "0", "0", "not shown")
    assert said.figures[0].words == "not shown"
    assert said.inside[:5] == ("6", "7", "1", "0", "0")
    # 6 in 6 × 60 + 7 × 180 days.
    assert said.inside[6].startswith("11.3 (")
    assert said.lists[0] == "of=incidence&kind=prolapse&which=new"


def test_quarters_share_out_what_is_new_and_the_days() -> None:
    seen([(BEFORE, False), (MARCH, False), (JUNE, True)])
    seen([(MARCH, True)], IN_YEAR)
    spans = [(date(2025, 1, 1), date(2025, 3, 31)), (date(2025, 4, 1), date(2025, 6, 30)),
             (date(2025, 7, 1), date(2025, 9, 30))]  # fmt: skip
    found = over_spans("prolapse", spans, YEAR, EVERYONE)
    cut = [(found[first, ""].new, found[first, ""].days) for first, _ in spans]
    # 90 and 29 days in the first, 90 in the second: 31 March belongs to the first.
    assert cut == [(1, 119), (1, 90), (0, 0)]
    whole = counts(YEAR)["prolapse"][""]
    assert sum(days for _, days in cut) == whole.days


def test_a_group_holds_its_own_stomas_alone() -> None:
    for kind, born in ((StomaKind.ILEOSTOMY, 1950), (StomaKind.COLOSTOMY, 1990)):
        seen([(MARCH, False)], kind=kind, patient__date_of_birth=date(born, 6, 1),
             construction="loop", permanence="temporary", surgeon=" Dr Ash ")  # fmt: skip

    def counted(**asked: str) -> int:
        found = counts(YEAR, Group(**asked))["prolapse"]
        return found[""].standing[FREE] if found else 0

    assert counted() == 2
    assert counted(stoma="ileostomy") == counted(age="65-79") == counted(age="16-64") == 1
    assert counted(stoma="ileostomy", age="16-64") == counted(age="80-") == counted(made="end") == 0
    assert counted(made="loop", lasting="temporary", surgeon="Dr Ash") == 2
    assert counted(surgeon="Dr Elm") == counted(lasting="permanent") == 0


@pytest.mark.parametrize(
    ("born", "age"),
    [
        (date(2010, 1, 1), "0-15"),
        (date(2009, 12, 31), "16-64"),
        (date(1961, 1, 1), "16-64"),
        (date(1960, 12, 31), "65-79"),
        (date(1946, 1, 1), "65-79"),
        (date(1945, 12, 31), "80-"),
    ],
)
def test_the_age_on_the_last_day(born: date, age: str) -> None:
    seen([(date(2025, 12, 1), False)], date(2025, 11, 1), patient__date_of_birth=born)
    assert list(counts(YEAR, by="age")["prolapse"]) == [age]


def test_a_file_of_a_group_says_nothing_the_files_of_the_others_would_give_away() -> None:
    """10 of 30 ileostomies and 2 of 22 colostomies: of the ileostomies alone, nothing is small."""
    for kind, new, free in (("ileostomy", 10, 20), ("colostomy", 2, 20)):
        for _ in range(new):
            seen([(BEFORE, False), (MARCH, True)], kind=kind)
        for _ in range(free):
            seen([(BEFORE, False), (MARCH, False)], kind=kind)
    group = Group(stoma="ileostomy")
    alone, beside = counts(YEAR, group), [counts(YEAR, group, "stoma", widened=True)]
    assert line(incidence(alone, [])).counts[:2] == ("10", "20")
    said = line(incidence(alone, beside))
    assert set(said.counts) == {"not shown"}
    assert said.inside[:2] == ("10", "20")
    of_group = measures(YEAR, noon(YEAR.until), group)
    assert [one.key for one in for_file(of_group, group)] == ["incidence", "prevalence"]
    assert "not shown" in line(of_group[0]).counts
    # 2 more of the other kind, 2 fewer: with 5 and more everywhere all of it is said.
    for _ in range(4):
        seen([(BEFORE, False), (MARCH, True)], kind="colostomy")
    beside = [counts(YEAR, group, "stoma", widened=True)]
    assert line(incidence(alone, beside)).counts[:2] == ("10", "20")
