"""Every respect in which today may not be as agreed, one at a time: worse, or not looked at.

Figures are design values: a quarter or 500 mL above a target, 2 kg, 5 mm lower, 25 mm longer,
30 mm wider.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bleeding,
    Bulge,
    Calibre,
    Colour,
    Condition,
    Findings,
    Medicine,
    Person,
    PouchBlood,
    Prolapse,
    Separation,
    SkinKind,
    StomaKind,
    Symptom,
    UrineSign,
    Vitals,
    Weighing,
)
from planning.safety.baselines import compared
from tests.planning.builders import raw, seen, situation, well

B = BaselineKind
EVERYTHING = frozenset(Symptom)
WEIGHED = Person(age_years=40, weight_kg=70.0)
URO: dict[str, Any] = {"kind": StomaKind.UROSTOMY, "urine_signs": frozenset[UrineSign]()}
THREE = ClockHours.of(3)
DRY = {"new confusion", "thirst", "little urine"}


def asked(*present: Symptom, **changes: Any) -> Findings:
    felt = frozenset(present)
    usual = {"present": felt, "absent": EVERYTHING - felt, "person": WEIGHED, "pain_0_10": 0}
    return well(**(usual | changes))


def differences(
    kind: BaselineKind, found: Findings, how: dict[str, Any], **history: Any
) -> tuple[set[str], set[str]]:
    """What is worse, and what was not recorded."""
    agreed = Baseline(kind, "the team", review_in_days=30.0, **how)
    facts = situation(found, History(baselines=(agreed,), **history)).facts
    against = compared(facts, kind)
    assert against is not None
    return set(against.worse), set(against.unseen)


def prolapse(**how: Any) -> dict[str, Any]:
    usual = {"extra_length_mm": 30.0, "reducible": True, "painful": False}
    return {"prolapse": (Prolapse(**(usual | how)),)}


def bulge(**how: Any) -> dict[str, Any]:
    usual = {"width_mm": 60.0, "reducible": True, "painful": False, "hard": False,
             "skin_changed": False}  # fmt: skip
    return {"bulges": (Bulge(THREE, **(usual | how)),)}


def gap(depth: float | None) -> dict[str, Any]:
    return {"junction": (Separation(THREE, depth),)}


Row = tuple[BaselineKind, dict[str, Any], Findings, set[str], set[str]]

FLUID: list[Row] = [
    (B.OUTPUT_TARGET, {"value": 1600.0}, asked(volume_ml_24h=1999.0), set(), set()),
    (B.OUTPUT_TARGET, {"value": 1600.0}, asked(volume_ml_24h=2000.0, days_at_volume=1.0),
     {"output 2000 mL in 24 hours, once"}, set()),
    (B.OUTPUT_TARGET, {"value": 1600.0}, asked(volume_ml_24h=2000.0, days_at_volume=2.0),
     {"output 2000 mL in 24 hours, 2 days or more"}, set()),
    (B.OUTPUT_TARGET, {"value": 1600.0}, asked(volume_ml_24h=2000.0),
     {"output 2000 mL in 24 hours, 2 days or more"}, set()),
    (B.OUTPUT_TARGET, {"value": 3000.0}, asked(volume_ml_24h=3499.0), set(), set()),
    (B.OUTPUT_TARGET, {"value": 3000.0}, asked(volume_ml_24h=3500.0, days_at_volume=1.0),
     {"output 3500 mL in 24 hours, once"}, set()),
    (B.OUTPUT_TARGET, {}, asked(), set(), {"output of 24 hours against an agreed figure"}),
    (B.OUTPUT_TARGET, {"value": 900.0}, asked(volume_ml_24h=None), set(),
     {"output of 24 hours against an agreed figure"}),
    (B.OUTPUT_TARGET, {"value": 900.0}, asked(person=replace(WEIGHED, weight_kg=None)), set(),
     {"weight"}),
    (B.OUTPUT_TARGET, {"value": 900.0, "urine_low_ml_24h": 1000.0}, asked(), set(),
     {"urine of 24 hours"}),
    (B.OUTPUT_TARGET, {"value": 900.0, "urine_low_ml_24h": 1000.0}, asked(urine_ml_24h=1000.0),
     set(), set()),
    (B.OUTPUT_TARGET, {"value": 900.0, "urine_low_ml_24h": 1000.0}, asked(urine_ml_24h=999.0),
     {"urine 999 mL in 24 hours, under the agreed 1000"}, set()),
    (B.OUTPUT_TARGET, {"value": 900.0}, asked(Symptom.PALPITATIONS, Symptom.LIMB_CRAMPS),
     {"palpitations", "cramps in the limbs"}, set()),
    # Bleeding
    (B.VARICES, {}, asked(), set(), set()),
    (B.VARICES, {}, asked(bleeding=Bleeding.ON_WIPING), {"it bleeds"}, set()),
    (B.VARICES, {}, asked(pouch_blood=PouchBlood.ONCE), {"blood in the pouch"}, set()),
    (B.VARICES, {}, asked(pouch_blood=PouchBlood.FOOD_COLOUR), set(), set()),
    (B.VARICES, {}, asked(skin=None, bleeding=None), set(),
     {"the skin round the stoma", "bleeding"}),
    (B.LIVER_DISEASE, {}, asked(), set(), set()),
    (B.LIVER_DISEASE, {}, asked(skin=(seen(SkinKind.DILATED_VEINS),)),
     {"dilated veins round the stoma"}, set()),
    (B.CONTACT_BLEEDING, {}, asked(bleeding=Bleeding.NONE), set(), set()),
    (B.CONTACT_BLEEDING, {}, asked(bleeding=Bleeding.ON_WIPING), set(), set()),
    (B.CONTACT_BLEEDING, {}, asked(bleeding=Bleeding.OOZE_AT_JUNCTION),
     {"more than drops on wiping"}, set()),
    (B.CONTACT_BLEEDING, {}, asked(pouch_blood=PouchBlood.CLOTS), {"blood in the pouch"}, set()),
    (B.CONTACT_BLEEDING, {}, asked(skin=(seen(SkinKind.DILATED_VEINS),)),
     {"dilated veins round the stoma"}, set()),
    # Urine
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO), set(), set()),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO, urine_signs_not_asked=frozenset({UrineSign.CLOUDY})),
     set(), set()),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO, urine_signs_not_asked=frozenset({UrineSign.BLOOD})),
     set(), {"whether there are clots or blood in the urine"}),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO | {"urine_signs": frozenset({UrineSign.CLOTS})}),
     {"clots in the urine"}, set()),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO | {"urine_signs": frozenset({UrineSign.BLOOD})}),
     {"red urine"}, set()),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO | {"urine_signs": frozenset({UrineSign.PINK})}),
     set(), set()),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO, volume_ml_24h=0.0), {"no urine comes"}, set()),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO, hours_without_output=1.0), {"no urine comes"},
     set()),
    # Of a bowel stoma it is not the urine that does not come.
    (B.PINK_URINE_OR_MUCUS, {}, asked(urine_signs=frozenset(), hours_without_output=1.0), set(),
     set()),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO, vitals=Vitals(38.0)), {"fever"}, set()),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO, absent=frozenset()), set(), {"fever"}),
    (B.PINK_URINE_OR_MUCUS, {}, asked(**URO, pouch_blood=PouchBlood.SEVERAL_EMPTIES),
     {"blood in the pouch"}, set()),
    # The mind
    *((B.CONFUSION, {}, asked(Symptom.CONFUSION, symptom), {words}, set())
      for symptom, words in (
          (Symptom.RESTLESS, "newly restless"), (Symptom.RIGORS, "rigors"),
          (Symptom.LOIN_PAIN, "loin pain"), (Symptom.VOMITING, "vomiting"),
          (Symptom.LOOKS_ILL, "looks ill"), (Symptom.MOTTLED_SKIN, "mottled skin"),
          (Symptom.PALPITATIONS, "palpitations"), (Symptom.LIMB_CRAMPS, "cramps in the limbs"),
          (Symptom.FEVER, "fever"))),
    (B.CONFUSION, {}, asked(Symptom.CONFUSION, absent=frozenset()), set(),
     {"fever", "whether it got worse suddenly"}),
    (B.CONFUSION, {}, asked(absent=frozenset({Symptom.FEVER})), set(), set()),
]  # fmt: skip

STOMA: list[Row] = [
    (B.PROLAPSE, {}, asked(**prolapse()), set(), set()),
    (B.PROLAPSE, {"reducible": True}, asked(**prolapse(reducible=False)),
     {"it no longer goes back"}, set()),
    (B.PROLAPSE, {"reducible": True}, asked(**prolapse(reducible=None)), set(),
     {"whether it no longer goes back"}),
    (B.PROLAPSE, {"reducible": False}, asked(**prolapse(reducible=False)), set(), set()),
    (B.PROLAPSE, {"value": 30.0}, asked(**prolapse(extra_length_mm=54.9)), set(), set()),
    (B.PROLAPSE, {"value": 30.0}, asked(**prolapse(extra_length_mm=55.0)), {"it is longer"},
     set()),
    (B.PROLAPSE, {"value": 30.0}, asked(**prolapse(extra_length_mm=None)), set(),
     {"whether it is longer"}),
    (B.PROLAPSE, {}, asked(**prolapse(extra_length_mm=90.0)), set(), set()),
    (B.PROLAPSE, {}, asked(**prolapse(growing=True)), {"it swells"}, set()),
    (B.PROLAPSE, {}, asked(**prolapse(painful=True)), {"it hurts"}, set()),
    (B.PROLAPSE, {}, asked(**prolapse(), colour=Colour.DUSKY), {"its colour has changed"}, set()),
    (B.PROLAPSE, {}, asked(**prolapse(), colour=None, bleeding=None), set(),
     {"whether its colour has changed", "whether it bleeds"}),
    (B.PROLAPSE, {}, asked(**prolapse(), bleeding=Bleeding.ON_WIPING), set(), set()),
    (B.PROLAPSE, {}, asked(**prolapse(), bleeding=Bleeding.OOZE_AT_JUNCTION), {"it bleeds"},
     set()),
    (B.BULGE, {}, asked(**bulge()), set(), set()),
    (B.BULGE, {}, asked(**bulge(reducible=False)), {"it no longer goes back"}, set()),
    (B.BULGE, {"reducible": False}, asked(**bulge(reducible=False)), set(), set()),
    (B.BULGE, {}, asked(**bulge(reducible=None)), set(), {"whether it no longer goes back"}),
    (B.BULGE, {"value": 60.0}, asked(**bulge(width_mm=89.9)), set(), set()),
    (B.BULGE, {"value": 60.0}, asked(**bulge(width_mm=90.0)), {"it is larger"}, set()),
    (B.BULGE, {}, asked(**bulge(painful=True, hard=True, skin_changed=True)),
     {"it hurts", "it is hard", "the skin over it has changed"}, set()),
    (B.BULGE, {}, asked(Symptom.VOMITING, **bulge()), {"the person vomits"}, set()),
    (B.BULGE, {}, asked(**bulge(painful=None, hard=None, skin_changed=None), absent=frozenset()),
     set(), {"whether it hurts", "whether it is hard", "whether the skin over it has changed",
             "whether the person vomits"}),
    (B.HEIGHT, {"value": 25.0}, asked(), set(), set()),
    (B.HEIGHT, {"value": 25.0}, asked(system=None, pain_0_10=None, absent=frozenset()), set(),
     {"whether it leaks more than once in a while", "whether it hurts",
      "whether the stool is ribbon-like"}),
    (B.SEPARATION, {"value": 8.0}, asked(**gap(8.0)), set(), set()),
    (B.SEPARATION, {"value": 8.0}, asked(**gap(8.1)), {"it is deeper"}, set()),
    *((B.SEPARATION, {"value": before}, asked(**gap(now)), set(),
       {"its depth against an agreed figure"})
      for before, now in ((None, 8.0), (8.0, None))),
    (B.NARROW_LUMEN, {}, asked(calibre=Calibre.FINGERTIP), set(), set()),
    (B.NARROW_LUMEN, {}, asked(Symptom.RIBBON_STOOL, Symptom.EXPLOSIVE_OUTPUT,
                               calibre=Calibre.FINGERTIP),
     {"the stool is ribbon-like", "it comes out with force"}, set()),
    (B.THICK_SKIN, {}, asked(skin=(seen(SkinKind.WARTY),)), set(), set()),
    (B.THICK_SKIN, {}, asked(skin=(seen(SkinKind.WARTY, enlarging=True),)), {"it grows"}, set()),
    (B.THICK_SKIN, {}, asked(skin=(seen(SkinKind.WARTY, changing=True),)), {"it grows"}, set()),
    *((B.THICK_SKIN, {}, asked(skin=(seen(SkinKind.WARTY), seen(kind))), {words}, set())
      for kind, words in ((SkinKind.ULCER, "there is an ulcer"),
                          (SkinKind.UNDERMINED_ULCER, "there is an ulcer"),
                          (SkinKind.HARD_LUMP, "there is a lump"))),
    (B.HEALED_PYODERMA, {}, asked(skin=(seen(SkinKind.ULCER),)), {"there is an ulcer"}, set()),
    (B.HEALED_PYODERMA, {}, asked(skin=(seen(SkinKind.UNDERMINED_ULCER),)),
     {"there is an ulcer"}, set()),
    (B.HEALED_PYODERMA, {}, asked(skin=(raw(pain=True),)), {"the skin is sore"}, set()),
    (B.HEALED_PYODERMA, {}, asked(skin=(raw(pain=False),)), set(), set()),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "how", "found", "worse", "unseen"), [*FLUID, *STOMA])
def test_each_difference_is_named_and_nothing_else(
    kind: BaselineKind, how: dict[str, Any], found: Findings, worse: set[str], unseen: set[str]
) -> None:
    assert differences(kind, found, how) == (worse, unseen)


@pytest.mark.parametrize(
    ("age", "kg", "lost"),
    [(40, 68.1, False), (40, 68.0, True), (8, 68.0, False)],
)
def test_two_kilos_since_the_last_weighing_count_for_adults(
    age: int, kg: float, lost: bool
) -> None:
    found = asked(person=Person(age_years=age, weight_kg=kg))
    before = (Weighing(200, 75.0), Weighing(30, 70.0))
    worse, _ = differences(B.OUTPUT_TARGET, found, {"value": 900.0}, weighings=before)
    assert ("2.0 kg lost since the last weighing" in worse) is lost


@pytest.mark.parametrize(
    ("age", "volume", "named"), [(8, 700.0, True), (40, 1499.0, False), (40, 1500.0, True)]
)
def test_signs_of_drying_out_not_asked_are_named_for_a_child_at_any_output(
    age: int, volume: float, named: bool
) -> None:
    person = replace(WEIGHED, age_years=age)
    found = asked(person=person, absent=frozenset(), volume_ml_24h=volume)
    _, unseen = differences(B.OUTPUT_TARGET, found, {"value": 1600.0})
    assert unseen & DRY == (DRY if named else set())


@pytest.mark.parametrize(
    ("before", "today", "new"),
    [
        ((3, 4), (3, 4), set()),
        ((3, 4), (3,), set()),
        ((3, 4), (3, 4, 5), {"dilated veins at new hours (5)"}),
        ((), (3,), {"dilated veins at new hours (3)"}),
        # Who did not look then cannot say that they are new.
        (None, (3,), set()),
    ],
)
def test_veins_at_new_hours(
    before: tuple[int, ...] | None, today: tuple[int, ...], new: set[str]
) -> None:
    def veins(hours: tuple[int, ...]) -> Any:
        return (seen(SkinKind.DILATED_VEINS, ClockHours.of(*hours)),) if hours else ()

    # Another finding of the visit before is no vein.
    skin = None if before is None else (*veins(before), seen(SkinKind.ERYTHEMA, ClockHours.of(5)))
    last = well(skin=skin)
    worse, _ = differences(B.VARICES, asked(skin=veins(today)), {}, previous=(last,))
    assert worse == new


NO_DRUG, THINNER = frozenset[Medicine](), frozenset({Medicine.ANTICOAGULANT})
PLATELETS, IRON = frozenset({Medicine.ANTIPLATELET}), frozenset({Medicine.IRON})
NOTED = frozenset({Condition.ANTICOAGULANT})
BEGUN = {"a blood thinner begun since the last visit"}


@pytest.mark.parametrize("kind", [B.VARICES, B.CONTACT_BLEEDING])
@pytest.mark.parametrize(
    ("then", "now", "begun"),
    [
        ({"medicines": NO_DRUG}, {"medicines": THINNER}, True),
        ({"medicines": IRON}, {"medicines": PLATELETS | IRON}, True),
        ({"medicines": THINNER}, {"medicines": THINNER}, False),
        ({"medicines": NO_DRUG}, {"medicines": IRON}, False),
        # One list alone says nothing of what was begun.
        ({"medicines": None}, {"medicines": THINNER}, False),
        ({"medicines": NO_DRUG}, {"medicines": None}, False),
        ({"medicines": None}, {"medicines": NO_DRUG}, False),
        # Without the list of then, what is noted as an illness says it.
        ({"medicines": None}, {"medicines": None, "has": NOTED}, True),
        ({"medicines": None, "has": NOTED}, {"medicines": None, "has": NOTED}, False),
        # Nor is it missed where only today's list is lacking.
        ({"medicines": NO_DRUG}, {"medicines": None, "has": NOTED}, True),
        ({"medicines": THINNER}, {"medicines": None, "has": NOTED}, False),
    ],
)
def test_a_blood_thinner_begun_since(
    kind: BaselineKind, then: dict[str, Any], now: dict[str, Any], begun: bool
) -> None:
    last = well(person=replace(WEIGHED, **then))
    worse, _ = differences(kind, asked(person=replace(WEIGHED, **now)), {}, previous=(last,))
    assert worse == (BEGUN if begun else set())
    assert differences(kind, asked(person=replace(WEIGHED, **now)), {})[0] == set()
