"""Lines of the sheet: few, and no danger lost."""

from __future__ import annotations

from itertools import product
from typing import Any

import pytest

from planning import recommend
from planning.findings import (
    Condition,
    Firmness,
    Person,
    Prolapse,
    Separation,
    SkinKind,
    StomaKind,
)
from planning.plan import CallWhen, Urgency
from tests.planning.builders import ALL, LOW, leaking, seen, well

E, S, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS

#: Written from the table of red flags: what everybody with a stoma must be told, and how soon.
EVERYONE = [
    (E, "black, purple or very pale"),
    (E, "a lump beside it gets hard and hurts"),
    (E, "faint"),
    (E, "confused"),
    (E, "very little urine"),
    (E, "your face swells"),
    (E, "cannot breathe"),
    (S, "blood from inside the stoma or in the pouch again and again"),
    (S, "deep cut"),
    (S, "red, warm skin spreads"),
    (D, "leaks, itches or burns"),
    (D, "changes size or looks different"),
]
BLEEDS = [(E, "does not stop after you press for 10 minutes")]
ILEO = [
    (E, "nothing comes for 4 hours and you have strong cramps or vomit"),
    (E, "more than 2 litres come in a day"),
    (S, "nothing comes for 6 hours"),
    (S, "more than 1 litre comes in a day"),
    (S, "watery for a day"),
    (S, "fever"),
]
BY_KIND = {
    StomaKind.ILEOSTOMY: ILEO,
    StomaKind.JEJUNOSTOMY: ILEO,
    StomaKind.COLOSTOMY: [
        (E, "no stool comes for a day and you have pain or vomit"),
        (D, "no stool comes for 3 days"),
        (S, "fever"),
    ],
    StomaKind.UROSTOMY: [
        (E, "no urine comes for 4 hours"),
        (E, "a fever or pain in your side or back"),
        (S, "no urine comes for 2 hours though you drink"),
        (D, "smells strong or feels gritty"),
    ],
}


def told(lines: tuple[CallWhen, ...], urgency: Urgency, words: str) -> bool:
    return any(line.urgency is urgency and words in line.patient_text.lower() for line in lines)


@pytest.mark.parametrize("kind", list(StomaKind))
def test_every_danger_of_the_kind_is_named_with_its_urgency(kind: StomaKind) -> None:
    lines = recommend(well(kind=kind)).call_when
    wanted = EVERYONE + BLEEDS + BY_KIND[kind]
    assert [w for w in wanted if not told(lines, *w)] == []


LIVER = Person(has=frozenset({Condition.LIVER_DISEASE}))
WITH: list[tuple[dict[str, Any], tuple[Urgency, str]]] = [
    (
        {"prolapse": (Prolapse(30.0, True, False),), "widest_mm": 40.0},
        (E, "gets dark, hard or sore, or stays out. do not push it."),
    ),
    ({"skin": (seen(SkinKind.DILATED_VEINS, ALL),)}, (E, "goes on, even a little. press, lie")),
    ({"junction": (Separation(LOW, 5.0, True, False),)}, (S, "gap at your stoma gets deeper")),
    ({"protrusion_mm": 0.0, "leak": LOW}, (S, "red mark or sore stays where")),
]


@pytest.mark.parametrize(("changes", "danger"), WITH)
def test_every_danger_of_the_findings_is_named(
    changes: dict[str, Any], danger: tuple[Urgency, str]
) -> None:
    lines = recommend(well(**changes)).call_when
    assert told(lines, *danger)
    assert not told(recommend(well()).call_when, *danger)
    assert [w for w in EVERYONE + ILEO if not told(lines, *w)] == []


@pytest.mark.parametrize(
    ("kind", "changes"),
    list(product(StomaKind, [{}, {"protrusion_mm": 0.0, "firmness": Firmness.SOFT}])),
)
def test_a_usual_sheet_has_at_most_eight_lines(kind: StomaKind, changes: dict[str, Any]) -> None:
    assert len(recommend(leaking(kind=kind, **changes)).call_when) <= 8


@pytest.mark.parametrize("kind", list(StomaKind))
def test_never_more_than_nine_lines_however_much_is_found(kind: StomaKind) -> None:
    found = well(
        kind=kind,
        prolapse=(Prolapse(30.0, True, False),),
        widest_mm=40.0,
        junction=(Separation(LOW, 5.0, True, False),),
        skin=(seen(SkinKind.DILATED_VEINS, ALL),),
        person=LIVER,
    )
    assert len(recommend(found).call_when) <= 9
