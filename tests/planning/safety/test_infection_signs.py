"""Infection of the whole body and at the stoma: every sign alone, either side of each figure.

Breaths, pulse and blood pressure as in the table of the facts (from memory, design values).
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning.inputs.findings import (
    Bleeding,
    Colour,
    Condition,
    Findings,
    Medicine,
    PouchBlood,
    Separation,
    SkinKind,
    StomaKind,
    Symptom,
    Vitals,
)
from planning.results.plan import Urgency
from planning.safety.flags_fever import (
    early_leak,
    fever_after_surgery,
    fever_later,
    fever_weak_defences,
    sepsis,
    unwell,
)
from planning.safety.flags_infection import abscess, infection, necrotising, pustules
from planning.safety.signs import fever, not_measured, too_cold, weak_defences
from tests.planning.builders import seen, situation
from tests.planning.safety.dangers import KNOWN
from tests.planning.safety.judged import E, S, ask, found, having, level, said
from tests.planning.safety.test_levels_of_facts import LOW_HOURS

HOT, LOWISH = Vitals(temperature_c=38.0), Vitals(systolic_mmhg=100.0)
EARLY: dict[str, Any] = {"days_since_surgery": 30}
LATER: dict[str, Any] = {"days_since_surgery": 31}
COLO: dict[str, Any] = {"kind": StomaKind.COLOSTOMY}
URO: dict[str, Any] = {"kind": StomaKind.UROSTOMY}
FIST: dict[str, Any] = {"skin": (seen(SkinKind.FISTULA),)}
NOT_TAKEN = Vitals()


def bare(*felt: Symptom, open_: tuple[Symptom, ...] = (), **changes: Any) -> Findings:
    """The same, but temperature and pulse were not taken."""
    today = found(*felt, open_=open_, **changes)
    return replace(today, output=replace(today.output, vitals=NOT_TAKEN))


@pytest.mark.parametrize(
    ("today", "urgency"),
    [
        (found(), None),
        (found(Symptom.CONFUSION), E),
        (found(Symptom.MOTTLED_SKIN), E),
        (found(vitals=Vitals(breaths=24.0)), None),
        (found(vitals=Vitals(breaths=25.0)), E),
        (found(vitals=Vitals(pulse=130.0)), None),
        (found(vitals=Vitals(pulse=131.0)), E),
        (found(vitals=Vitals(systolic_mmhg=91.0)), None),
        (found(vitals=Vitals(systolic_mmhg=90.0)), E),
        (found(Symptom.RIGORS, person=having(Condition.CENTRAL_LINE)), E),
        (found(Symptom.RIGORS), None),
        (found(person=having(Condition.CENTRAL_LINE)), None),
        (bare(), None),
        # A lowish blood pressure counts beside any other sign.
        (found(vitals=LOWISH), None),
        *((found(sign, vitals=LOWISH), E) for sign in (
            Symptom.RIGORS, Symptom.LOOKS_ILL, Symptom.DROWSY, Symptom.PALE, Symptom.FAINTNESS,
            Symptom.CANNOT_KEEP_FLUIDS, Symptom.LIMB_WEAKNESS, Symptom.PALPITATIONS,
            Symptom.DIZZY_ON_STANDING, Symptom.LIMB_CRAMPS, Symptom.LITTLE_URINE,
            Symptom.MILD_CRAMPS, Symptom.RISING_PAIN)),
        (found(Symptom.THIRST, vitals=LOWISH), None),
        (found(vitals=replace(LOWISH, temperature_c=38.0)), E),
        (found(vitals=replace(LOWISH, temperature_c=37.9)), None),
        (found(vitals=replace(LOWISH, pulse=101.0)), E),
        (found(vitals=replace(LOWISH, pulse=100.0)), None),
        (found(vitals=LOWISH, bleeding=Bleeding.OOZE_AT_JUNCTION), E),
        (found(vitals=LOWISH, bleeding=Bleeding.ON_WIPING), None),
        (found(vitals=LOWISH, pouch_blood=PouchBlood.ONCE), E),
        (found(Symptom.RIGORS, vitals=Vitals(systolic_mmhg=101.0)), None),
    ],
)  # fmt: skip
def test_sepsis_on_any_day(today: Findings, urgency: Urgency | None) -> None:
    assert level(sepsis, today) is urgency


def test_every_sign_of_sepsis_is_said() -> None:
    both = found(Symptom.MOTTLED_SKIN, vitals=Vitals(breaths=30.0))
    assert said(sepsis, both) == "Mottled or ashen skin and very fast breathing."
    assert said(sepsis, found(Symptom.CONFUSION)) == "New confusion."


@pytest.mark.parametrize(
    ("today", "urgency", "words"),
    [
        (found(), None, None),
        (found(Symptom.LOOKS_ILL, **EARLY), S, "The person looks ill."),
        (found(Symptom.RIGORS, **EARLY), E, "Rigors soon after surgery."),
        (found(Symptom.RIGORS, days_since_surgery=None), E, "Rigors soon after surgery."),
        (found(Symptom.RIGORS, **LATER), S, "Rigors."),
        (found(Symptom.RIGORS, Symptom.LOOKS_ILL, **LATER), S, "Rigors."),
    ],
)
def test_rigors_or_looking_ill(today: Findings, urgency: Urgency | None, words: str | None) -> None:
    assert level(unwell, today) is urgency
    if words:
        assert said(unwell, today) == words


STEROID, BIOLOGIC = (
    replace(KNOWN, medicines=frozenset({medicine}))
    for medicine in (Medicine.STEROID, Medicine.BIOLOGIC)
)
WEAK = [
    having(Condition.IMMUNOSUPPRESSED), having(Condition.CHEMOTHERAPY_RECENT),
    having(Condition.NEUTROPENIA), having(Condition.TRANSPLANT), STEROID, BIOLOGIC,
]  # fmt: skip


@pytest.mark.parametrize("person", WEAK)
@pytest.mark.parametrize(
    ("felt", "measured", "urgency"),
    [
        ((), Vitals(), None),
        ((), Vitals(temperature_c=38.0), E),
        ((), Vitals(temperature_c=37.0, highest_c=38.0), E),
        ((), Vitals(temperature_c=36.0), None),
        ((), Vitals(temperature_c=35.9), E),
        ((), Vitals(temperature_c=37.0, highest_c=35.9), E),
        ((Symptom.FEVER,), Vitals(), E),
        ((Symptom.RIGORS,), Vitals(), E),
        ((Symptom.LOOKS_ILL,), Vitals(), E),
        ((Symptom.TIRED,), Vitals(), None),
    ],
)
def test_weak_defences(
    person: Any, felt: tuple[Symptom, ...], measured: Vitals, urgency: Urgency | None
) -> None:
    assert level(fever_weak_defences, found(*felt, person=person, vitals=measured)) is urgency
    assert level(fever_weak_defences, found(*felt, vitals=measured)) is None


def test_who_has_weak_defences() -> None:
    sugar = having(Condition.DIABETES, medicines=frozenset({Medicine.METFORMIN}))
    assert not weak_defences(situation(found(person=sugar)).facts)
    assert all(weak_defences(situation(found(person=person)).facts) for person in WEAK)


@pytest.mark.parametrize(
    ("felt", "open_", "measured", "hot", "cold", "lacking"),
    [
        ((), (), NOT_TAKEN, False, False, ["pulse"]),
        ((), (Symptom.FEVER,), NOT_TAKEN, None, False, ["temperature", "pulse"]),
        ((), (Symptom.FEVER,), Vitals(37.9, pulse=70.0), False, False, []),
        ((), (Symptom.FEVER,), Vitals(highest_c=37.9), None, False, ["temperature", "pulse"]),
        ((), (Symptom.FEVER,), Vitals(highest_c=38.0), True, False, ["pulse"]),
        ((Symptom.FEVER,), (), Vitals(37.0), True, False, ["pulse"]),
        ((), (), Vitals(36.0, 36.0), False, False, ["pulse"]),
        ((), (), Vitals(35.9, 36.0), False, True, ["pulse"]),
    ],
)
def test_what_is_known_of_the_temperature(
    felt: tuple[Symptom, ...], open_: tuple[Symptom, ...], measured: Vitals,
    hot: bool | None, cold: bool, lacking: list[str],
) -> None:  # fmt: skip
    today = bare(*felt, open_=open_)
    facts = situation(replace(today, output=replace(today.output, vitals=measured))).facts
    assert (fever(facts), too_cold(facts), not_measured(facts)) == (hot, cold, lacking)


@pytest.mark.parametrize(
    ("today", "urgency"),
    [
        (found(vitals=HOT, **EARLY), S),
        (found(vitals=HOT, **LATER), None),
        (found(**EARLY), None),
        *((found(sign, vitals=HOT, **EARLY), E) for sign in (
            Symptom.SWOLLEN_ABDOMEN, Symptom.VOMITING, Symptom.RIGORS, Symptom.LOOKS_ILL,
            Symptom.ABDOMINAL_PAIN, Symptom.MILD_CRAMPS, Symptom.RISING_PAIN)),
        (found(Symptom.TIRED, vitals=HOT, **EARLY), S),
        (found(vitals=replace(HOT, pulse=110.0), **EARLY), S),
        (found(vitals=replace(HOT, pulse=111.0), **EARLY), E),
        (found(vitals=HOT, colour=Colour.PALE, **EARLY), E),
        (found(vitals=HOT, colour=None, **EARLY), S),
    ],
)  # fmt: skip
def test_fever_soon_after_surgery(today: Findings, urgency: Urgency | None) -> None:
    assert level(fever_after_surgery, today) is urgency


def test_a_fever_soon_after_surgery_asks_for_what_would_make_it_an_emergency() -> None:
    companions = (Symptom.ABDOMINAL_PAIN, Symptom.MILD_CRAMPS, Symptom.SWOLLEN_ABDOMEN,
                  Symptom.RIGORS)  # fmt: skip
    open_ = bare(Symptom.FEVER, open_=companions, **EARLY)
    assert ask(fever_after_surgery, open_) == (
        "pulse, pain in the belly, cramps, mild ones too, a swollen abdomen and rigors"
    )
    assert ask(fever_after_surgery, found(vitals=HOT, **EARLY)) == ""


GAP: dict[str, Any] = {"junction": (Separation(LOW_HOURS, 3.0, True, contaminated=True),)}


@pytest.mark.parametrize(
    ("today", "urgency"),
    [
        (found(**EARLY), None),
        (found(vitals=Vitals(pulse=110.0), **EARLY), None),
        (found(vitals=Vitals(pulse=111.0), **EARLY), S),
        (found(vitals=Vitals(pulse=111.0), **LATER), None),
        (found(Symptom.RISING_PAIN, **EARLY), S),
        (found(Symptom.RISING_PAIN, vitals=Vitals(pulse=111.0), **EARLY), E),
        # One of these alone has a flag of its own; two are a leak.
        *((found(*felt, **changes, **EARLY), None) for felt, changes in (
            ((Symptom.FEVER,), {}), ((), FIST), ((), GAP), ((Symptom.NO_GAS,), {}),
            ((), {"volume_ml_24h": 1500.0}), ((), {"hours_without_output": 12.0}))),
        *((found(Symptom.FEVER, *felt, **changes, **EARLY), E) for felt, changes in (
            ((), FIST), ((), GAP), ((Symptom.NO_GAS,), {}), ((), {"volume_ml_24h": 1500.0}),
            ((), {"hours_without_output": 12.0}), ((), {**COLO, "hours_without_output": 72.0}))),
        *((found(Symptom.FEVER, *felt, **changes, **EARLY), None) for felt, changes in (
            ((), {"volume_ml_24h": 1499.0}), ((), {"volume_ml_24h": None}),
            ((), {"hours_without_output": 11.9}), ((), {**COLO, "hours_without_output": 71.0}),
            # Of a urostomy much and none are urine.
            ((), {**URO, "volume_ml_24h": 2000.0}), ((), {**URO, "hours_without_output": 90.0}),
            ((Symptom.NO_GAS,), URO))),
        (found(Symptom.FEVER, **FIST, **LATER), None),
    ],
)  # fmt: skip
def test_a_leak_inside_soon_after_surgery(today: Findings, urgency: Urgency | None) -> None:
    assert level(early_leak, today) is urgency


def test_a_leak_inside_is_said_by_its_signs_and_asks_for_what_was_not_taken() -> None:
    assert said(early_leak, found(Symptom.FEVER, Symptom.RISING_PAIN, **EARLY)) == (
        "Soon after surgery: pain that rises and fever."
    )
    rises = bare(Symptom.RISING_PAIN, open_=(Symptom.FEVER,), **EARLY)
    assert said(early_leak, rises) == "Soon after surgery: pain that rises."
    assert ask(early_leak, rises) == "temperature and pulse"


@pytest.mark.parametrize(
    ("today", "urgency"),
    [
        (found(**LATER), None),
        (found(Symptom.FEVER, **LATER), S),
        (found(Symptom.FEVER, **EARLY), None),
        (found(Symptom.FEVER, **LATER, **URO), None),
        (found(Symptom.FEVER, Symptom.LOOKS_ILL, **LATER), E),
        (found(Symptom.FEVER, Symptom.RIGORS, **LATER), S),
        *((found(Symptom.FEVER, Symptom.RIGORS, sign, **LATER), E) for sign in (
            Symptom.VOMITING, Symptom.NO_GAS, Symptom.SPURTING_OUTPUT, Symptom.SEVERE_CRAMPS)),
        (found(Symptom.FEVER, Symptom.NO_GAS, **LATER), S),
        (found(Symptom.FEVER, Symptom.MILD_CRAMPS, hours_without_output=4.0, **LATER), E),
        (found(Symptom.FEVER, Symptom.MILD_CRAMPS, **LATER), S),
    ],
)  # fmt: skip
def test_fever_later(today: Findings, urgency: Urgency | None) -> None:
    assert level(fever_later, today) is urgency


# --- at the stoma ---------------------------------------------------------------------------
def skin(kind: SkinKind, **how: Any) -> dict[str, Any]:
    return {"skin": (seen(kind, **how),)}


ILL = [
    found(vitals=HOT), found(vitals=Vitals(pulse=101.0)),
    *(found(sign) for sign in (Symptom.RIGORS, Symptom.CONFUSION, Symptom.FAINTNESS,
                               Symptom.LOOKS_ILL, Symptom.FEVER)),
]  # fmt: skip
DEAD = skin(SkinKind.ERYTHEMA, numb_or_crackling=True)
WARM, PUS = skin(SkinKind.SPREADING_WARMTH), skin(SkinKind.ABSCESS)


@pytest.mark.parametrize("ill", ILL)
@pytest.mark.parametrize(
    ("judge", "what"), [(infection, WARM), (abscess, PUS), (necrotising, DEAD)]
)
def test_an_infection_in_somebody_ill_is_an_emergency(
    judge: Any, what: dict[str, Any], ill: Findings
) -> None:
    assert level(judge, replace(ill, **what)) is E
    assert level(judge, found(**what)) is S
    assert level(judge, found(vitals=Vitals(pulse=100.0), **what)) is S
    assert level(judge, found()) is None


@pytest.mark.parametrize(
    ("judge", "what", "words"),
    [
        (infection, WARM, "temperature and pulse"),
        (abscess, PUS, "temperature, pulse and what weakens the defences"),
        (necrotising, DEAD, "temperature and pulse"),
    ],
)
def test_an_infection_asks_for_what_was_not_taken(
    judge: Any, what: dict[str, Any], words: str
) -> None:
    assert ask(judge, bare(open_=(Symptom.FEVER,), **what)) == words


@pytest.mark.parametrize(
    ("judge", "today", "urgency"),
    [
        (infection, found(**skin(SkinKind.SPREADING_WARMTH, hours_to_spread=4.0)), E),
        (infection, found(**skin(SkinKind.SPREADING_WARMTH, hours_to_spread=4.1)), S),
        *((abscess, found(person=person, **PUS), E) for person in WEAK),
        (necrotising, found(**skin(SkinKind.ERYTHEMA, hours_to_spread=24.0, pain_0_10=7)), E),
        (necrotising, found(**skin(SkinKind.ERYTHEMA, hours_to_spread=24.1, pain_0_10=7)), None),
        (necrotising, found(**skin(SkinKind.ERYTHEMA, hours_to_spread=24.0, pain_0_10=6)), None),
        (necrotising, found(**skin(SkinKind.ERYTHEMA, hours_to_spread=24.0), pain_0_10=None), None),
        (necrotising, found(**skin(SkinKind.ERYTHEMA, pain_0_10=10)), None),
        (pustules, found(**skin(SkinKind.HAIR_PUSTULES)), None),
        (pustules, found(vitals=HOT, **skin(SkinKind.HAIR_PUSTULES)), S),
        (pustules, found(vitals=HOT, **skin(SkinKind.ERYTHEMA)), None),
    ],
)  # fmt: skip
def test_an_infection_that_spreads_or_hurts(
    judge: Any, today: Findings, urgency: Urgency | None
) -> None:
    assert level(judge, today) is urgency
