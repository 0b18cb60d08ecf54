"""Dehydration and high output in an adult with a bowel stoma (facts of 2026, section 1.6): signs
before volumes, volumes by day and by days running, agreed targets, what to drink, what to name."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    BloodTests,
    Condition,
    Findings,
    Medicine,
    Person,
    StomaKind,
    Symptom,
    Vitals,
    Weighing,
)
from planning.results.plan import RedFlag, Urgency
from planning.safety.drying import clear_signs, grave_signs
from tests.planning.builders import situation, well

E, S, T = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE
EVERYTHING = frozenset(Symptom)
NO_DRUGS = Person(sensitivities=frozenset(), medicines=frozenset(), age_years=40)
URINE: dict[str, Any] = {"urine_ml_24h": 1200.0}


def asked(*present: Symptom, **changes: Any) -> Findings:
    """Everything asked, ``present`` alone felt, no medicine taken."""
    felt = frozenset(present)
    found = {"person": NO_DRUGS, "absent": EVERYTHING - felt, "present": felt} | URINE
    return well(**(found | changes))


def raised(found: Findings, history: History | None = None) -> dict[str, RedFlag]:
    return {flag.key: flag for flag in recommend(found, history or History()).red_flags}


def levels(found: Findings, history: History | None = None) -> dict[str, Urgency]:
    return {key: flag.urgency for key, flag in raised(found, history).items()}


# --- the table of volumes: every cell -----------------------------------------------------------
TABLE: list[tuple[float, int | None, float | None, Urgency | None]] = [
    # up to 1000: usual
    (999.0, 10, 1.0, None), (999.0, 400, 1.0, None),
    # 1000-1199: usual for a new stoma, a call later; day not known: as later
    (1000.0, 42, 1.0, None), (1199.0, 10, 5.0, None), (1000.0, 43, 1.0, T), (1199.0, 400, 5.0, T),
    (1000.0, None, 1.0, T),
    # 1200-1499
    (1200.0, 10, 1.0, T), (1499.0, 10, 5.0, T), (1200.0, 400, 1.0, T), (1499.0, 400, 5.0, T),
    # 1500-1999 once, 2 days running, not recorded for how long
    (1500.0, 42, 1.0, S), (1999.0, 43, 1.0, T), (1500.0, 400, 2.0, S), (1500.0, 400, None, S),
    (1500.0, 10, 2.0, S), (1500.0, None, 1.0, S),
    # 2000 or more, whether blood was taken today not recorded
    (2000.0, 10, 1.0, E), (2000.0, 400, 1.0, E),
]  # fmt: skip


@pytest.mark.parametrize(("volume", "day", "days", "level"), TABLE)
def test_a_cell_of_the_table(
    volume: float, day: int | None, days: float | None, level: Urgency | None
) -> None:
    found = asked(volume_ml_24h=volume, days_since_surgery=day, days_at_volume=days)
    assert levels(found).get("high_output") is level


TAKEN = (BloodTests.TAKEN, BloodTests.RESULT_KNOWN)


@pytest.mark.parametrize("taken", TAKEN)
def test_two_litres_of_an_older_stoma_are_seen_today_where_blood_was_taken_today(
    taken: BloodTests,
) -> None:
    much = {"volume_ml_24h": 2000.0, "days_at_volume": 1.0, "blood_tests": taken}
    assert levels(asked(**much, days_since_surgery=43))["high_output"] is S
    frail = {"person": replace(NO_DRUGS, age_years=75)}
    assert levels(asked(**{**much, "volume_ml_24h": 1500.0}, **frail))["high_output"] is S


@pytest.mark.parametrize("day", [42, None])
def test_two_litres_of_a_new_stoma_stay_an_emergency_whatever_was_taken(day: int | None) -> None:
    found = asked(volume_ml_24h=2000.0, days_since_surgery=day, blood_tests=BloodTests.RESULT_KNOWN)
    assert levels(found)["high_output"] is E


def test_blood_not_taken_or_not_recorded_leaves_two_litres_an_emergency() -> None:
    for tests in (None, BloodTests.NOT_TAKEN):
        assert levels(asked(volume_ml_24h=2000.0, blood_tests=tests))["high_output"] is E
    assert "was blood taken today" in raised(asked(volume_ml_24h=2000.0))["high_output"].do
    said = raised(asked(volume_ml_24h=2000.0, blood_tests=BloodTests.NOT_TAKEN))
    assert "was blood taken today" not in said["high_output"].do


def test_blood_taken_lowers_nothing_beside_a_sign_or_a_sign_not_asked() -> None:
    much = {"volume_ml_24h": 2000.0, "blood_tests": BloodTests.RESULT_KNOWN}
    assert levels(asked(Symptom.DIZZY_ON_STANDING, **much))["high_output"] is E
    unasked = asked(**much)
    output = replace(unasked.output, absent=EVERYTHING - {Symptom.DIZZY_ON_STANDING})
    assert levels(replace(unasked, output=output))["high_output"] is E
    jejunostomy = asked(**much, kind=StomaKind.JEJUNOSTOMY)
    assert levels(jejunostomy)["high_output"] is T


# --- risks: one makes 1500 once a same-day matter -----------------------------------------------
RISKS: list[dict[str, Any]] = [
    {"person": replace(NO_DRUGS, age_years=65)},
    {"person": replace(NO_DRUGS, has=frozenset({Condition.KIDNEY_DISEASE}))},
    {"person": replace(NO_DRUGS, has=frozenset({Condition.CHEMOTHERAPY_RECENT}))},
    {"person": replace(NO_DRUGS, medicines=frozenset({Medicine.DIURETIC}))},
    {"person": replace(NO_DRUGS, medicines=frozenset({Medicine.ACE_INHIBITOR_OR_ARB}))},
    {"person": replace(NO_DRUGS, medicines=frozenset({Medicine.SGLT2_INHIBITOR}))},
    {"person": replace(NO_DRUGS, medicines=None)},
    {"vitals": Vitals(temperature_c=38.0)},
]


@pytest.mark.parametrize("risk", RISKS)
def test_one_risk_makes_one_day_of_1500_a_matter_of_today(risk: dict[str, Any]) -> None:
    once = {"volume_ml_24h": 1500.0, "days_at_volume": 1.0}
    assert levels(asked(**once, **risk))["high_output"] is S
    assert levels(asked(**once))["high_output"] is T
    young = {"person": replace(NO_DRUGS, age_years=64)}
    assert levels(asked(**once, **young))["high_output"] is T


@pytest.mark.parametrize(
    ("volume", "level"), [(999.0, None), (1000.0, T), (1200.0, S), (1500.0, E), (2000.0, E)]
)
def test_at_75_every_volume_counts_one_step_higher(volume: float, level: Urgency | None) -> None:
    frail = {"person": replace(NO_DRUGS, age_years=75), "days_at_volume": 1.0}
    assert levels(asked(volume_ml_24h=volume, **frail)).get("high_output") is level
    not_yet = {"person": replace(NO_DRUGS, age_years=74), "days_at_volume": 1.0}
    assert levels(asked(volume_ml_24h=1200.0, **not_yet))["high_output"] is T


# --- signs --------------------------------------------------------------------------------------
GRAVE: list[tuple[tuple[Symptom, ...], dict[str, Any]]] = [
    ((Symptom.FAINTNESS,), {}), ((Symptom.CONFUSION,), {}), ((Symptom.CANNOT_KEEP_FLUIDS,), {}),
    ((Symptom.LIMB_WEAKNESS,), {}), ((Symptom.PALPITATIONS,), {}),
    ((), {"urine_ml_24h": 399.0}), ((), {"hours_without_urine": 8.0}),
]  # fmt: skip
CLEAR: list[tuple[tuple[Symptom, ...], dict[str, Any]]] = [
    ((Symptom.DIZZY_ON_STANDING,), {}), ((Symptom.LIMB_CRAMPS,), {}),
    ((Symptom.LITTLE_URINE,), {"urine_ml_24h": None}), ((), {"urine_ml_24h": 799.0}),
    ((), {"vitals": Vitals(pulse=101.0)}),
]  # fmt: skip
NEITHER: list[dict[str, Any]] = [
    {"urine_ml_24h": 800.0}, {"hours_without_urine": 7.9}, {"vitals": Vitals(pulse=100.0)},
]  # fmt: skip


@pytest.mark.parametrize("volume", [None, 300.0, 700.0])
@pytest.mark.parametrize(("signs", "changes"), GRAVE)
def test_a_grave_sign_is_an_emergency_at_any_output(
    signs: tuple[Symptom, ...], changes: dict[str, Any], volume: float | None
) -> None:
    assert levels(asked(*signs, volume_ml_24h=volume, **changes))["dehydration"] is E


@pytest.mark.parametrize("volume", [None, 300.0, 700.0])
@pytest.mark.parametrize(("signs", "changes"), CLEAR)
def test_a_clear_sign_is_seen_today_at_any_output(
    signs: tuple[Symptom, ...], changes: dict[str, Any], volume: float | None
) -> None:
    assert levels(asked(*signs, volume_ml_24h=volume, **changes))["dehydration"] is S


@pytest.mark.parametrize("changes", NEITHER)
def test_short_of_the_limit_it_is_no_sign(changes: dict[str, Any]) -> None:
    assert levels(asked(**changes)) == {}


def test_two_clear_signs_are_an_emergency_and_little_urine_counts_once() -> None:
    two = asked(Symptom.LIMB_CRAMPS, vitals=Vitals(pulse=101.0))
    assert levels(two)["dehydration"] is E
    once = asked(Symptom.LITTLE_URINE, urine_ml_24h=799.0)
    assert levels(once)["dehydration"] is S


def test_little_urine_is_split_by_a_question() -> None:
    unsplit = raised(asked(Symptom.LITTLE_URINE, urine_ml_24h=None))["dehydration"]
    assert unsplit.do.startswith("Ask now: is it under 400 mL in 24 hours, or none for 8 hours.")
    split = raised(asked(Symptom.LITTLE_URINE, urine_ml_24h=700.0))["dehydration"]
    assert not split.do.startswith("Ask now")
    other = raised(asked(Symptom.LIMB_CRAMPS, urine_ml_24h=None))["dehydration"]
    assert not other.do.startswith("Ask now")


def test_a_clear_sign_lifts_the_volume_one_level() -> None:
    dizzy = Symptom.DIZZY_ON_STANDING
    assert levels(asked(dizzy, volume_ml_24h=1000.0))["high_output"] is S
    assert levels(asked(dizzy, volume_ml_24h=1000.0, days_since_surgery=10))["high_output"] is S
    assert levels(asked(dizzy, volume_ml_24h=1500.0, days_at_volume=2.0))["high_output"] is E
    assert levels(asked(dizzy, volume_ml_24h=1500.0, days_at_volume=1.0))["high_output"] is S


@pytest.mark.parametrize(
    "sign", [Symptom.THIRST, Symptom.DRY_MOUTH, Symptom.DARK_URINE, Symptom.TIRED]
)
def test_thirst_and_the_like_count_only_beside_a_litre(sign: Symptom) -> None:
    new = {"days_since_surgery": 10}
    other = Symptom.THIRST if sign is not Symptom.THIRST else Symptom.TIRED
    assert "high_output" not in levels(asked(sign, volume_ml_24h=999.0, **new))
    assert levels(asked(sign, volume_ml_24h=1000.0, **new))["high_output"] is T
    assert levels(asked(sign, other, volume_ml_24h=1000.0, **new))["high_output"] is S
    assert levels(asked(sign, volume_ml_24h=None))["unmeasured_output"] is T
    solid = asked(sign, volume_ml_24h=None, kind=StomaKind.COLOSTOMY)
    assert "unmeasured_output" not in levels(solid)


def test_signs_nobody_asked_at_1500_are_asked_today() -> None:
    once = {"volume_ml_24h": 1500.0, "days_at_volume": 1.0}
    found = asked(**once)
    assert levels(found)["high_output"] is T
    one_open = replace(found, output=replace(found.output, absent=EVERYTHING - {Symptom.THIRST}))
    flag = raised(one_open)["high_output"]
    assert flag.urgency is S
    assert flag.do.startswith("Ask now: thirst.")


@pytest.mark.parametrize(
    ("weighings", "now", "level"),
    [
        ((Weighing(2, 70.0),), 68.0, S), ((Weighing(2, 70.0),), 68.1, None),
        ((Weighing(3, 70.0),), 68.0, None), ((Weighing(7, 70.0),), 67.0, S),
        ((Weighing(8, 70.0),), 67.0, None), ((Weighing(7, 70.0),), 67.1, None),
        ((Weighing(7, 50.0),), 47.5, S),
        ((Weighing(7, 50.0),), 47.6, None), ((), 47.0, None),
        # Just 2 kg and just 5 %, which binary fractions fall short of.
        ((Weighing(2, 70.1),), 68.1, S), ((Weighing(7, 58.0),), 55.1, S),
    ],
)  # fmt: skip
def test_weight_lost(weighings: tuple[Weighing, ...], now: float, level: Urgency | None) -> None:
    found = asked(person=replace(NO_DRUGS, weight_kg=now))
    assert levels(found, History(weighings=weighings)).get("dehydration") is level


# --- up on the own mean, watery -----------------------------------------------------------------
@pytest.mark.parametrize(
    ("volume", "days", "level"), [(900.0, 2.0, T), (900.0, None, T), (900.0, 1.0, None),
                                  (899.0, 2.0, None)],
)  # fmt: skip
def test_500_above_the_own_mean(volume: float, days: float | None, level: Urgency | None) -> None:
    found = asked(volume_ml_24h=volume, usual_ml_24h=400.0, days_at_volume=days)
    assert levels(found).get("output_risen") is level


def test_watery_stands_for_a_volume_nobody_measured() -> None:
    thirsty = asked(Symptom.THIRST, Symptom.TIRED, volume_ml_24h=None, watery_for_hours=25.0)
    assert levels(asked(volume_ml_24h=None, watery_for_hours=25.0))["watery"] is T
    assert levels(thirsty)["watery"] is S


# --- jejunostomy and targets --------------------------------------------------------------------
JEJU: dict[str, Any] = {"kind": StomaKind.JEJUNOSTOMY}


def target(value: float = 2500.0, **how: Any) -> History:
    agreed = Baseline(BaselineKind.OUTPUT_TARGET, "intestinal failure team", value,
                      **({"review_in_days": 100.0} | how))  # fmt: skip
    return History(baselines=(agreed,))


def test_a_jejunostomy_without_a_target_is_a_call_to_set_one() -> None:
    flag = raised(asked(volume_ml_24h=2400.0, **JEJU))["high_output"]
    assert (flag.urgency, flag.refer_to) == (T, "nutrition team, by telephone")
    dizzy = asked(Symptom.DIZZY_ON_STANDING, volume_ml_24h=2400.0, **JEJU)
    assert levels(dizzy)["high_output"] is S


@pytest.mark.parametrize(
    ("volume", "days", "level"),
    [(2400.0, None, None), (2999.0, 3.0, None), (3000.0, 2.0, S), (3000.0, None, S),
     (3000.0, 1.0, T)],
)  # fmt: skip
def test_a_target_is_what_counts(volume: float, days: float | None, level: Urgency | None) -> None:
    found = asked(volume_ml_24h=volume, days_at_volume=days, **JEJU)
    assert levels(found, target()).get("high_output") is level


def test_a_small_target_is_passed_by_a_quarter() -> None:
    assert "high_output" not in levels(asked(volume_ml_24h=1624.0), target(1300.0))
    assert levels(asked(volume_ml_24h=1625.0), target(1300.0))["high_output"] is S


def test_within_a_target_weight_urine_and_signs_still_count() -> None:
    thin = asked(volume_ml_24h=2400.0, person=replace(NO_DRUGS, weight_kg=58.0), **JEJU)
    lost = replace(target(), weighings=(Weighing(20, 60.0),))
    assert levels(thin, lost)["high_output"] is S
    urine = asked(volume_ml_24h=2400.0, urine_ml_24h=999.0, **JEJU)
    assert levels(urine, target(urine_low_ml_24h=1000.0))["high_output"] is S
    assert levels(asked(Symptom.LIMB_CRAMPS, volume_ml_24h=2400.0, **JEJU), target()) == {
        "high_output": S,
        "dehydration": S,
    }
    open_ = well(volume_ml_24h=2400.0, person=NO_DRUGS, **JEJU)
    assert levels(open_, target())["high_output"] is S


def test_the_sheet_of_somebody_with_a_target_names_no_litres() -> None:
    def told(found: Findings, history: History) -> str:
        return " ".join(str(line.patient_text) for line in recommend(found, history).call_when)

    assert "2 litres" in told(asked(), History())
    assert "litre" not in told(asked(), target())
    assert "litre" not in told(asked(**JEJU), History())
    plan = recommend(asked(volume_ml_24h=2400.0, **JEJU), target())
    assert any("no longer holds with: a quarter or 500 mL" in n.text for n in plan.notices)


def test_an_overdue_target_no_longer_counts_and_is_said_to() -> None:
    late = target(2500.0, review_in_days=-1.0)
    found = asked(volume_ml_24h=2400.0)
    assert levels(found, late)["high_output"] is E
    assert any("overdue for review" in n.text for n in recommend(found, late).notices)


# --- what is shown beside every such flag ------------------------------------------------------
def sheet(found: Findings, key: str = "high_output") -> str:
    return str(raised(found)[key].patient_text or "")


def test_what_to_drink_stands_beside_the_flag() -> None:
    plain = raised(asked(volume_ml_24h=1500.0))["high_output"]
    assert "Sip rehydration drink" in str(plain.patient_text or "")
    assert "no plain water to catch up" in str(plain.patient_text or "")
    assert "no recipe and no amount without a plan on record" in plain.do
    limited = replace(NO_DRUGS, has=frozenset({Condition.HEART_FAILURE}))
    held = raised(asked(volume_ml_24h=1500.0, person=limited))["high_output"]
    assert "Keep to the fluid limit set for you." in str(held.patient_text or "")
    assert "only within the limit" in held.do
    sick = asked(Symptom.VOMITING, volume_ml_24h=1500.0)
    assert "Do not eat or drink." in sheet(sick)
    assert "Sip" not in sheet(sick)
    crampy = asked(Symptom.MILD_CRAMPS, volume_ml_24h=1500.0)
    assert "Eat no solid food." in sheet(crampy)


def test_bloods_are_named_for_the_physician_not_for_a_call() -> None:
    assert "magnesium, creatinine" in raised(asked(volume_ml_24h=1500.0))["high_output"].do
    taken = raised(asked(volume_ml_24h=1500.0, blood_tests=BloodTests.TAKEN))["high_output"]
    assert "needs today's results" in taken.do
    call = raised(asked(volume_ml_24h=1000.0))["high_output"]
    assert "Bloods" not in call.do
    assert call.refer_to == "stoma team, by telephone"


def test_medicines_are_named_and_never_stopped() -> None:
    taken = frozenset({Medicine.LAXATIVE, Medicine.MAGNESIUM_ANTACID, Medicine.ANTIBIOTIC})
    person = replace(NO_DRUGS, medicines=taken)
    flag = raised(asked(volume_ml_24h=1650.0, person=person))["high_output"]
    assert "Tell the prescriber today of: a laxative and a magnesium antacid." in flag.do
    assert "stool test is asked for before anything slows the bowel" in flag.do
    unknown = raised(asked(volume_ml_24h=1650.0, person=replace(NO_DRUGS, medicines=None)))
    assert "list of medicines is not known: ask" in unknown["high_output"].do


@pytest.mark.parametrize("urine", [399.0, 799.0])
def test_little_urine_from_a_urostomy_is_no_sign_of_drying_out(urine: float) -> None:
    """It has rules of its own (facts of 2026, sections 1.7 to 1.9)."""
    for kind, signs in ((StomaKind.ILEOSTOMY, True), (StomaKind.UROSTOMY, False)):
        facts = situation(well(kind=kind, urine_ml_24h=urine)).facts
        assert bool([*grave_signs(facts), *clear_signs(facts)]) is signs
