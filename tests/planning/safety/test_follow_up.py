"""When to come back, when to call, what is not known."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Circumstance,
    Colour,
    Condition,
    Degree,
    Person,
    Product,
    Profile,
    Prolapse,
    RemovalReason,
    SkinKind,
    Stoma,
    StomaKind,
    Symptom,
    Vitals,
    WearEpisode,
    Wound,
)
from planning.results.plan import CallWhen, Urgency
from planning.results.snapshot import findings_from_dict
from planning.safety.follow_up import RULES
from planning.safety.routine import UNKNOWN, VISITS, YEARLY, next_visit, words_of_days
from tests.planning.builders import LOW, leaking, raw, seen, situation, well


@pytest.mark.parametrize(
    ("changes", "days"),
    [
        ({"colour": Colour.BLACK_BROWN_GREY}, 1),
        ({"deep_cut": True}, 1),
        ({"skin": (seen(SkinKind.FISTULA),)}, 3),
        ({"skin": (seen(SkinKind.ERYTHEMA),)}, 7),
        ({"leak": LOW, "opening_length_mm": 40.0, "opening_width_mm": 40.0}, 14),
    ],
)
def test_interval(changes: dict[str, Any], days: int) -> None:
    assert recommend(well(**changes)).follow_up.in_days == days


@pytest.mark.parametrize(
    ("since", "days"),
    [(0, 3), (3, 4), (7, 7), (14, 28), (27, 15), (42, 48), (180, 185), (365, 365)],
)
def test_routine_visits_of_an_ileostomy(since: int, days: int) -> None:
    """Day 3 and 7 calls, then 14, 42, 90, 180, 365, yearly."""
    assert recommend(well(days_since_surgery=since)).follow_up.in_days == days


def test_new_convexity_is_checked_within_a_week() -> None:
    plan = recommend(well(protrusion_mm=0.0, leak=LOW))
    assert plan.follow_up.in_days == 7
    kept = well(
        protrusion_mm=0.0,
        leak=None,
        profile=Profile.CONVEX,
        convex_depth_mm=3.0,
        compressibility=Degree.MORE,
        flexibility=None,
    )
    assert recommend(kept).follow_up.in_days > 7


def _pregnant(weeks: int | None) -> Person:
    return Person(frozenset(), frozenset({Condition.PREGNANT}), pregnant_weeks=weeks)


DEMENTIA = Person(frozenset(), frozenset({Condition.DEMENTIA}))
#: Raw and wet in the outline of paste.
PASTE_RING = seen(SkinKind.EROSION, ClockHours.all_round(), outer_mm=6.0, moist=True,
                  burning=True, product_outline=True, outline_of=Product.PASTE)  # fmt: skip
#: Each interval by its key: findings that make it, the days, and what the clinician reads.
TELEPHONE: dict[str, Any] = {
    "present": frozenset({Symptom.MILD_CRAMPS}),
    "absent": frozenset(Symptom) - {Symptom.MILD_CRAMPS},
    "hours_without_output": 0.0,
}
INTERVALS: list[tuple[str, dict[str, Any], int, str]] = [
    ("after_emergency", {"colour": Colour.BLACK_BROWN_GREY}, 1, "An emergency"),
    ("after_same_day", {"deep_cut": True}, 1, "referred the same day"),
    ("after_telephone", {"volume_ml_24h": 1000.0}, 3, "A call was to be made the same day"),
    ("after_days", {"skin": (seen(SkinKind.FISTULA),)}, 3, "to be seen within days"),
    (
        "restless",
        {
            "person": DEMENTIA,
            "present": frozenset({Symptom.RESTLESS}),
            "absent": frozenset(Symptom) - {Symptom.RESTLESS},
            "vitals": Vitals(36.8, 36.8, 78.0, 16.0, 120.0),
        },
        3,
        "pulled off or restless",
    ),
    ("open_wound", {"wounds": (Wound(LOW, 25.0),)}, 3, "open wound near the stoma"),
    (
        "weeping_reaction",
        {"skin": (PASTE_RING,), "accessories": frozenset({Accessory.PASTE})},
        3,
        "inside a product's outline",
    ),
    ("yeast", {"skin": (seen(SkinKind.SATELLITES),)}, 7, "Yeast"),
    ("damaged_skin", {"skin": (seen(SkinKind.ERYTHEMA),)}, 7, "Damaged skin"),
    ("pregnant_late", {"person": _pregnant(28)}, 14, "from week 28 on"),
    ("pregnant_early", {"person": _pregnant(27)}, 28, "before week 28"),
    ("still_leaks", {"leak": LOW, "placed_towards": 6}, 14, "It leaks, and no supply"),
    ("new_pressure", {"protrusion_mm": 0.0, "leak": LOW}, 7, "Convexity or belt is new"),
    ("changed_system", {"leak": LOW, "length_mm": 26.0, "width_mm": 26.0}, 14, "was changed"),
    ("not_looked_at", {"skin": None}, 14, "Skin or stoma was not looked at"),
    ("date_unknown", {"days_since_surgery": None}, 14, "not recorded"),
    ("rubbed_stoma", {"rubbed": True}, 7, "looked at within a week"),
    ("after_telephone", TELEPHONE, 3, "A call was to be made the same day"),
    ("day_3", {"days_since_surgery": 0}, 3, "Three days after surgery"),
    ("day_7", {"days_since_surgery": 3}, 4, "One week after surgery with a new ileostomy"),
    ("day_14", {"days_since_surgery": 7}, 7, "Two weeks after surgery"),
    ("day_42", {"days_since_surgery": 14}, 28, "Six weeks after surgery"),
    ("day_90", {"days_since_surgery": 42}, 48, "Three months after surgery"),
    ("day_180", {"days_since_surgery": 90}, 90, "Six months after surgery"),
    ("day_365", {"days_since_surgery": 180}, 185, "One year after surgery"),
    ("yearly", {"days_since_surgery": 365}, 365, "A year after stoma and skin"),
]


@pytest.mark.parametrize(("key", "changes", "days", "said"), INTERVALS)
def test_each_interval(key: str, changes: dict[str, Any], days: int, said: str) -> None:
    again = recommend(well(**changes)).follow_up
    assert again.in_days == days
    assert said in " ".join(reason.text for reason in again.because)
    #: The visit keeps the reason in 300 characters.
    assert len(" ".join(reason.text for reason in again.because)) <= 300
    assert key in {rule.key for rule in RULES} | {v.key for v in (*VISITS, YEARLY, UNKNOWN)}


def test_a_finding_for_two_weeks_is_asked_after_in_two() -> None:
    """``after_two_weeks``: a lump; damaged skin would come first, so it is shown only with it."""
    rule = next(rule for rule in RULES if rule.key == "after_two_weeks")
    now = situation(well(skin=(seen(SkinKind.HARD_LUMP),)))
    assert rule.holds(now, None)
    assert (rule.days.value, now.urgency) == (14, Urgency.TWO_WEEKS)
    assert recommend(now.facts.findings).follow_up.in_days == 7


@pytest.mark.parametrize(("weeks", "days"), [(None, 14), (28, 14), (27, 28)])
def test_a_good_fit_in_pregnancy_is_measured_as_often(weeks: int | None, days: int) -> None:
    """Every 4 weeks, from week 28 every 2 (design values); a week not recorded counts as late."""
    plan = recommend(well(person=_pregnant(weeks)))
    assert plan.leave_alone
    assert plan.follow_up.in_days == days


def test_pulled_off_counts_with_dementia_alone() -> None:
    """Three days (design value)."""
    pulled = (WearEpisode(2.0, RemovalReason.FELL_OFF, Circumstance.PULLED_OFF),)
    assert recommend(well(person=DEMENTIA, wear=pulled, leak=LOW)).follow_up.in_days == 3
    assert recommend(well(wear=pulled, leak=LOW)).follow_up.in_days > 3


def test_dry_skin_under_a_product_may_wait_a_week() -> None:
    """Raw and wet inside one outline: 1 to 3 days (design value)."""
    dry = replace(PASTE_RING, kind=SkinKind.ERYTHEMA, moist=False)
    worn = frozenset({Accessory.PASTE})
    assert recommend(well(skin=(dry,), accessories=worn)).follow_up.in_days == 7


def test_every_interval_has_its_example() -> None:
    keys = [rule.key for rule in RULES] + [v.key for v in (*VISITS, YEARLY, UNKNOWN)]
    assert len(keys) == len(set(keys))
    assert set(keys) - {key for key, *_ in INTERVALS} == {"after_two_weeks"}


@pytest.mark.parametrize("kind", [StomaKind.COLOSTOMY, StomaKind.UROSTOMY, StomaKind.JEJUNOSTOMY])
def test_only_an_ileostomy_is_called_after_a_week(kind: StomaKind) -> None:
    assert next_visit(kind, 3, 3)[1].key == "day_14"
    assert next_visit(StomaKind.ILEOSTOMY, 3, 3)[1].key == "day_7"


@pytest.mark.parametrize(
    ("days", "text"),
    [
        (1, "See or telephone again tomorrow."),
        (3, "See again within 3 days."),
        (13, "See again within 13 days."),
        (14, "See again within 2 weeks."),
        (28, "See again within 4 weeks."),
        (48, "See again within 48 days, about 7 weeks."),
        (56, "See again within 8 weeks."),
        (60, "See again within 60 days, about 9 weeks."),
        # Two months are 60.8 days.
        (61, "See again within 61 days, about 2 months."),
        (63, "See again within 63 days, about 2 months."),
        (90, "See again within 90 days, about 3 months."),
        (185, "See again within 185 days, about 6 months."),
        (357, "See again within 357 days, about 12 months."),
        (358, "See again within 358 days, about a year."),
        (365, "See again within 365 days, about a year."),
        (372, "See again within 372 days, about a year."),
        (373, "See again within 373 days, about 12 months."),
    ],
)
def test_the_day_is_told_exactly_and_as_one_says_it(days: int, text: str) -> None:
    assert words_of_days(days) == text


@pytest.mark.parametrize(
    ("today", "last_look", "key", "days"),
    [
        # The calls of the first days come whenever somebody last looked.
        (12, 12, "day_14", 2),
        # A look in the second half of the time before a routine one stands for it: after day 66
        # for day 90, after day 135 for day 180, after day 272 for the first year.
        (66, 66, "day_90", 24),
        (67, 67, "day_180", 113),
        (135, 135, "day_180", 45),
        (136, 136, "day_365", 229),
        (272, 272, "day_365", 93),
        (273, 273, "yearly", 365),
        # From then on a year from look to look.
        (700, 700, "yearly", 365),
        # Today was no look: the one before counts.
        (80, 67, "day_180", 100),
        (700, 400, "yearly", 65),
        (700, 335, "routine_overdue", 14),
        # No one ever looked: from surgery on.
        (700, None, "yearly", 30),
        (300, None, "day_365", 65),
    ],
)
def test_a_routine_look_counts_from_the_last_one(
    today: int, last_look: int | None, key: str, days: int
) -> None:
    """Design values: which look stands for which, and a year from then on."""
    found, visit = next_visit(StomaKind.COLOSTOMY, today, last_look)
    assert (visit.key, found) == (key, days)


def test_today_counts_where_stoma_and_skin_were_looked_at() -> None:
    before = History(previous=(well(days_since_surgery=500),))
    again = recommend(well(days_since_surgery=700), before).follow_up
    assert again.in_days == 365
    assert again.because[0].text == YEARLY.why
    blind = recommend(well(days_since_surgery=860, skin=None), before).follow_up
    assert blind.in_days == 5


def words(lines: tuple[CallWhen, ...]) -> str:
    return " ".join(str(line.patient_text) for line in lines)


def test_lines_differ_by_kind_of_stoma() -> None:
    ileo, colo, uro = (
        words(recommend(well(kind=kind)).call_when)
        for kind in (StomaKind.ILEOSTOMY, StomaKind.COLOSTOMY, StomaKind.UROSTOMY)
    )
    assert "litre" in ileo
    assert "3 days" in colo
    assert "No urine" in uro
    assert "No urine" not in ileo + colo
    assert "cramps" not in uro


def test_emergencies_come_first() -> None:
    ranks = [line.urgency.rank for line in recommend(leaking()).call_when]
    assert ranks == sorted(ranks)
    assert ranks[0] == Urgency.EMERGENCY.rank


def test_what_presses_and_what_is_long_get_lines_of_their_own() -> None:
    pressed = words(recommend(leaking(protrusion_mm=0.0)).call_when)
    assert "red mark" in pressed
    long = words(recommend(well(prolapse=(Prolapse(30.0, True, False),), widest_mm=40.0)).call_when)
    assert "Do not push it." in long


# --- what is not known ----------------------------------------------------------------------
def missing(**changes: Any) -> set[str]:
    return {reason.finding for reason in recommend(well(**changes)).missing}


@pytest.mark.parametrize(
    ("changes", "path"),
    [
        ({"colour": None}, "measurement.colour"),
        ({"volume_ml_24h": None}, "output.volume_ml_24h"),
        ({"skin": None}, "skin"),
        ({"leak": None}, "system.leak"),
        ({"system": None}, "system"),
        ({"length_mm": None}, "measurement.length_mm"),
        ({"junction": None}, "measurement.junction"),
        ({"bulges": None}, "abdomen.bulges"),
        ({"days_since_surgery": None}, "stoma.days_since_surgery"),
        ({"prolapse": (Prolapse(),)}, "measurement.widest_mm"),
        ({"skin": (seen(SkinKind.EROSION, outer_mm=None),)}, "skin[0].outer_mm"),
        ({"colour": Colour.DUSKY, "turgor": None}, "measurement.turgor"),
        ({"kind": StomaKind.UROSTOMY}, "output.urine_signs"),
    ],
)
def test_unknown_is_listed(changes: dict[str, Any], path: str) -> None:
    assert path in missing(**changes)
    assert path not in missing()


def test_a_volume_is_not_asked_of_a_colostomy() -> None:
    assert "output.volume_ml_24h" not in missing(kind=StomaKind.COLOSTOMY, volume_ml_24h=None)


def test_unknown_skin_or_barrier_is_never_a_good_fit() -> None:
    assert recommend(well()).leave_alone
    for changes in ({"skin": None}, {"leak": None}, {"erosion": None}, {"system": None}):
        assert not recommend(well(**changes)).leave_alone


def test_a_hazard_in_use_ends_a_good_fit() -> None:
    veins_and_belt = well(
        person=findings_from_dict(
            {"person": {"has": ["liver_disease"]}, "stoma": {"kind": "ileostomy"}}
        ).person,
        accessories=frozenset({Accessory.BELT}),
    )
    assert not recommend(veins_and_belt).leave_alone


def test_with_nothing_but_the_kind_there_is_still_an_honest_plan() -> None:
    plan = recommend(well(stoma=Stoma(StomaKind.ILEOSTOMY), system=None, skin=None))
    assert not plan.leave_alone
    assert not any("convex" in key or "flat" in key for key in plan.supplies)


@pytest.mark.parametrize(
    ("changes", "plain"),
    [
        ({"colour": Colour.BLACK_BROWN_GREY}, "To hear how you are."),
        ({"deep_cut": True}, "To hear how you are and what the team found."),
        ({"skin": (seen(SkinKind.FISTULA),)}, "To look again at what we found today."),
        ({"skin": (seen(SkinKind.ERYTHEMA),)}, "To look at your skin again."),
        (
            {"protrusion_mm": 0.0, "leak": LOW},
            "To check that nothing presses too hard on your skin.",
        ),
        (
            {"leak": LOW, "opening_length_mm": 40.0, "opening_width_mm": 40.0},
            "To see how your new supplies work for you.",
        ),
        ({}, "For your yearly check."),
    ],
)
def test_the_patient_is_told_why_in_plain_words(changes: dict[str, Any], plain: str) -> None:
    assert str(recommend(well(**changes)).follow_up.patient_text) == plain


def test_after_an_emergency_nothing_else_is_a_reason_to_come_back() -> None:
    ill = well(colour=Colour.BLACK_BROWN_GREY, skin=(raw(),), leak=LOW, rubbed=True)
    again = recommend(ill).follow_up
    assert [reason.text for reason in again.because] == ["An emergency: ask how it went."]
    assert again.in_days == 1
