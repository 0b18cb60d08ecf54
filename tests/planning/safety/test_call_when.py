"""Lines of the sheet: few, and no danger lost."""

from __future__ import annotations

from itertools import product
from typing import Any

import pytest

from planning import recommend
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Condition,
    Firmness,
    History,
    Medicine,
    OtherStoma,
    Person,
    Prolapse,
    Separation,
    SkinKind,
    StomaKind,
    Symptom,
)
from planning.results.plan import CallWhen, Urgency
from planning.safety.call_when import DANGERS
from tests.planning.builders import ALL, LOW, leaking, seen, well

E, S, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS
T = Urgency.TELEPHONE

#: Written from the table of red flags: what everybody with a stoma must know, and how soon.
EVERYONE = [
    (E, "black, purple or very pale"),
    (E, "a lump beside it gets hard and hurts"),
    (E, "bowel comes out beside it"),
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
WATERY = "watery for a day"
ILEO = [
    (E, "nothing comes for 4 hours and you have strong cramps or vomit"),
    (E, "more than 2 litres come in a day"),
    (S, "nothing comes for 12 hours"),
    (T, "nothing comes for 6 hours"),
    (T, "more than 1 litre comes in a day"),
    (T, WATERY),
    (S, "fever"),
]
BY_KIND = {
    StomaKind.ILEOSTOMY: ILEO,
    # Two litres and more are often usual there: by its target, which the sheet does not know.
    StomaKind.JEJUNOSTOMY: [line for line in ILEO if "litre" not in line[1] if line[1] != WATERY],
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
    return any(
        line.urgency is urgency and words in str(line.patient_text).lower() for line in lines
    )


@pytest.mark.parametrize("kind", list(StomaKind))
def test_every_danger_of_the_kind_is_named_with_its_urgency(kind: StomaKind) -> None:
    lines = recommend(well(kind=kind)).call_when
    wanted = EVERYONE + BLEEDS + BY_KIND[kind]
    assert [w for w in wanted if not told(lines, *w)] == []
    assert all(message.id for line in lines for message in line.patient_text)


LIVER = Person(has=frozenset({Condition.LIVER_DISEASE}))
WITH: list[tuple[dict[str, Any], tuple[Urgency, str]]] = [
    (
        {"prolapse": (Prolapse(30.0, True, False),), "widest_mm": 40.0},
        (E, "gets dark, hard or sore. do not push it."),
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


COLO = {"kind": StomaKind.COLOSTOMY, "absent": frozenset(Symptom)}
HELD = frozenset({Symptom.HARD_MASS, Symptom.SPURTING_OUTPUT})
RIBBON = frozenset({Symptom.RIBBON_STOOL})
OWN = Person(medicines=frozenset({Medicine.STEROID}))
RESTS = (OtherStoma(LOW, rests=True),)
TARGET = History(baselines=(Baseline(BaselineKind.OUTPUT_TARGET, "team", 1300.0),))
#: Findings, history, and what they add.
OF_FLAGS: list[tuple[dict[str, Any], History, tuple[Urgency, str]]] = [
    ({**COLO, "hours_without_output": 72.0}, History(), (S, "belly swells or no gas comes")),
    (
        {**COLO, "present": HELD, "absent": frozenset(Symptom) - HELD},
        History(),
        (E, "you vomit or no gas comes"),
    ),
    (
        {**COLO, "present": RIBBON, "absent": frozenset(Symptom) - RIBBON},
        History(),
        (E, "nothing comes and you have cramps, vomit or a swollen belly"),
    ),
    ({"junction": (Separation(LOW, 22.0, False, False),)}, History(), (E, "your heart races")),
    ({"tablets_whole": True, "person": OWN}, History(), (E, "faint, vomit or get very weak")),
    ({}, TARGET, (S, "you lose 2 kilos")),
    ({}, TARGET, (S, "dizzy when you stand")),
    ({"other_stomas": RESTS}, History(), (E, "your working stoma gives nothing for 4 hours")),
    ({"other_stomas": RESTS}, History(), (S, "your working stoma gives nothing for 12 hours")),
    ({"other_stomas": RESTS}, History(), (T, "your working stoma gives nothing for 6 hours")),
]


@pytest.mark.parametrize(("changes", "history", "danger"), OF_FLAGS)
def test_what_a_flag_or_agreement_adds_is_named(
    changes: dict[str, Any], history: History, danger: tuple[Urgency, str]
) -> None:
    assert told(recommend(well(**changes), history).call_when, *danger)
    kind = changes.get("kind", StomaKind.ILEOSTOMY)
    assert not told(recommend(well(kind=kind)).call_when, *danger)


def test_no_count_of_days_beside_a_blockage() -> None:
    found = well(**{**COLO, "present": HELD, "absent": frozenset(Symptom) - HELD})
    lines = recommend(found).call_when
    assert not told(lines, D, "no stool comes for 3 days")


def test_an_open_gap_tells_of_fever_once() -> None:
    lines = recommend(well(junction=(Separation(LOW, 22.0, False, False),))).call_when
    assert told(lines, E, "fever")
    assert not told(lines, S, "fever")


def test_what_rests_is_not_called_silent() -> None:
    words = [
        str(line.patient_text).lower() for line in recommend(well(other_stomas=RESTS)).call_when
    ]
    assert not any("nothing comes for" in line for line in words)
    assert any("working stoma gives nothing" in line for line in words)
    # The hours are those of a small bowel.
    colostomy = well(other_stomas=RESTS, kind=StomaKind.COLOSTOMY)
    lines = [str(line.patient_text).lower() for line in recommend(colostomy).call_when]
    assert not any("working stoma gives nothing" in line for line in lines)


#: Each danger by its key, and the words of the table above that hold it.
BY_KEY = {
    "dark_or_pale": "black, purple", "hard_lump": "a lump beside it",
    "long_stoma": "dark, hard or sore",
    "bowel_beside": "bowel comes out beside", "long_stays_out": "used to go back",
    "ileo_later": "nothing comes for 12",
    "veins_bleed": "even a little", "bleeds_on": "press for 10 minutes",
    "faint_or_dry": "faint", "face_swells": "face swells", "urine_stops": "urine comes for 4",
    "urine_fever": "pain in your side", "urine_late": "urine comes for 2",
    "urine_smells": "smells strong", "stool_blocked": "no stool comes for a day",
    "stool_late": "no stool comes for 3", "ileo_blocked": "nothing comes for 4",
    "two_litres": "2 litres", "ileo_late": "nothing comes for 6", "one_litre": "1 litre",
    "stays_watery": "watery", "blood_again": "blood from inside", "deep_cut_seen": "deep cut",
    "warmth": "red, warm skin spreads", "warmth_or_fever": "spreads or you have a fever",
    "gap_deeper": "gap at your stoma", "mark_stays": "red mark or sore",
    "flows_over": "vomit or no gas", "stool_slow": "belly swells",
    "working_blocked": "nothing for 4", "working_later": "nothing for 12",
    "working_late": "nothing for 6", "narrow_blocked": "swollen belly",
    "gap_infected": "heart races", "steroid_lost": "very weak", "over_target": "2 kilos",
    "salt_lost": "dizzy when you stand",
    "leaks_again": "leaks, itches", "looks_different": "changes size",
}  # fmt: skip


def test_every_danger_is_one_of_those_named_above() -> None:
    assert {danger.key: BY_KEY[danger.key] in danger.words for danger in DANGERS} == dict.fromkeys(
        BY_KEY, True
    )
    named = " ".join(
        words for _, words in (*EVERYONE, *BLEEDS, *(w for k in BY_KIND.values() for w in k))
    ) + " ".join(words for _, (_, words) in WITH)
    everyone = [danger for danger in DANGERS if danger.told is None]
    assert all(BY_KEY[danger.key] in named for danger in everyone)
