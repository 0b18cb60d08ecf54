"""Every figure a rule compares with, set down a second time by hand from its source.

A figure changes here and in ``planning.evidence.thresholds`` together, or this test fails: no
figure moves by a slip. Beside each stands the source that the planner must cite for it.
"""

from __future__ import annotations

import pytest

from planning.evidence.thresholds import all_thresholds

#: Name: value, unit, source.
FIGURES = {
    "child_under": (16, "years", "design_value"),
    "gap_target": (2.0, "mm", "design_value"),
    "gap_least": (1.5875, "mm", "sizing2020"),
    "gap_most": (3.175, "mm", "green2018"),
    "gap_rubs": (1.0, "mm", "common_practice"),
    "round_ratio": (1.15, "", "design_value"),
    "pre_cut_from": (56, "days", "design_value"),
    "pre_cut_stable": (14, "days", "design_value"),
    "size_least": (10.0, "mm", "design_value"),
    "size_most": (80.0, "mm", "design_value"),
    "size_old": (30, "days", "design_value"),
    "size_old_early": (7, "days", "design_value"),
    "retracted_at": (-5.0, "mm", "from_memory"),
    "flush_to": (4.0, "mm", "design_value"),
    "spout_trouble": (20.0, "mm", "persson2010"),
    "spout_trouble_urine": (20.0, "mm", "design_value"),
    "colostomy_trouble": (5.0, "mm", "persson2010"),
    "spout_long": (30.0, "mm", "from_memory"),
    "colostomy_long": (15.0, "mm", "from_memory"),
    "spout_low": (10.0, "mm", "common_practice"),
    "separates_low": (10.0, "mm", "ayik2020"),
    "prolapse_height": (50.0, "mm", "design_value"),
    "prolapse_rise": (25.0, "mm", "design_value"),
    "shallow_to": (3.0, "mm", "mcnichol2021"),
    "deep_from": (8.0, "mm", "mcnichol2021"),
    "least_lift": (1.0, "mm", "design_value"),
    "early_days": (30, "days", "stoiadavis2022"),
    "pressure_check": (7, "days", "design_value"),
    "ring_outer": (50.0, "mm", "common_practice"),
    "ring_inner": (18.0, "mm", "common_practice"),
    "ring_thickness": (4.5, "mm", "common_practice"),
    "ring_stretch": (2.0, "times", "common_practice"),
    "strip_thickness": (4.0, "mm", "common_practice"),
    "strip_layers": (2, "layers", "design_value"),
    "paste_depth": (2.0, "mm", "design_value"),
    "half_rings": (3, "layers", "design_value"),
    "barrier_across": (101.6, "mm", "lcd"),
    "paste_reach": (16.0, "mm", "design_value"),
    "tape_border": (15.0, "mm", "design_value"),
    "fistula_clear": (10.0, "mm", "design_value"),
    "lowest_share": (0.6, "", "design_value"),
    "crease_share": (0.75, "", "design_value"),
    "one_sided": (0.5, "", "design_value"),
    "all_round": (10, "hours", "design_value"),
    "raw_wide": (20.0, "mm", "design_value"),
    "pyoderma_pain": (7, "of 10", "design_value"),
    "healing_days": (14, "days", "design_value"),
    "lump_days": (28, "days", "design_value"),
    "output_call": (1000, "mL/24 h", "gateshead"),
    "output_urgent": (1500, "mL/24 h", "arenas2015"),
    "output_emergency": (2000, "mL/24 h", "baker2011"),
    "watery_hours": (24, "h", "gateshead"),
    "silent_ileo_pain": (4, "h", "obstruction"),
    "silent_ileo": (6, "h", "design_value"),
    "silent_colo_pain": (24, "h", "common_practice"),
    "silent_colo": (72, "h", "common_practice"),
    "silent_uro": (2, "h", "from_memory"),
    "silent_uro_long": (4, "h", "from_memory"),
    "early_ischaemia": (7, "days", "design_value"),
    "same_size": (1.0, "mm", "design_value"),
    "barrier_rim": (10.0, "mm", "common_practice"),
    "near_edge": (5.0, "mm", "design_value"),
    "away_from_edge": (10.0, "mm", "design_value"),
    "belt_from": (40.0, "mm", "design_value"),
    "cancer_after": (730, "days", "malignancy2010"),
    "wear_often": (2.0, "days", "design_value"),
    "wear_enough": (3, "barriers", "design_value"),
    "urine_little": (400, "mL/24 h", "design_value"),
    "sunken_deep": (-20.0, "mm", "design_value"),
    "separation_very_deep": (20.0, "mm", "design_value"),
    "pain_moderate": (4, "of 10", "design_value"),
    "pain_strong": (7, "of 10", "design_value"),
    "silent_ileo_long": (24, "h", "design_value"),
    "wear_long": (7.0, "days", "common_practice"),
    "wear_short": (1.0, "days", "design_value"),
    "wear_typing_error": (14.0, "days", "design_value"),
    "wear_raw": (3.0, "days", "common_practice"),
    "wear_usual_ileo": (5.01, "days", "richbourg2008"),
    "wear_usual_colo": (4.55, "days", "richbourg2008"),
    "wear_usual_uro": (5.02, "days", "richbourg2008"),
    "change_day_first": (2, "days", "design_value"),
    "change_day_last": (7, "days", "design_value"),
    "change_day_held": (0.9, "", "design_value"),
    "change_day_barriers": (8, "barriers", "design_value"),
    "change_day_still_on": (5, "barriers", "design_value"),
    "extended_from": (3, "days", "design_value"),
    "wear_held": (3.0, "days", "design_value"),
    "leak_rate_amber": (0.2, "leaks per change", "design_value"),
    "leak_rate_red": (0.4, "leaks per change", "leak2016"),
    "leaks_a_day": (2.0, "per 24 h", "design_value"),
    "shrinks_days": (56, "days", "mskcc"),
    "closed_a_day": (2.0, "per day", "design_value"),
    "reserve": (1, "changes", "design_value"),
    "follow_next_day": (1, "days", "design_value"),
    "follow_soon": (3, "days", "design_value"),
    "follow_skin": (7, "days", "design_value"),
    "follow_change": (14, "days", "common_practice"),
    "follow_two_weeks": (14, "days", "common_practice"),
    "least_episodes": (5, "observations", "design_value"),
    "least_failures": (5, "failures", "design_value"),
    "wear_compared": (3, "days", "design_value"),
    "size_sem": (1.0, "mm", "design_value"),
    "protrusion_sem": (1.5, "mm", "design_value"),
    "bulge_height_sem": (2.0, "mm", "design_value"),
    "bulge_width_sem": (5.0, "mm", "design_value"),
    "prolapse_sem": (2.5, "mm", "design_value"),
    "output_sem": (100, "mL/24 h", "design_value"),
    "skin_sem_share": (0.15, "", "design_value"),
    "skin_sem_least": (10.0, "mm2", "design_value"),
    "outcome_barriers": (5, "barriers", "design_value"),
    "outcome_p": (0.05, "", "design_value"),
    "outcome_events": (8, "events", "design_value"),  # fewest in both periods to be alike
    "outcome_times": (2.0, "times", "design_value"),
    "course_window": (180, "days", "design_value"),
    "wear_window": (56, "days", "design_value"),
    "wear_fall": (1.0, "days", "design_value"),
    "hernia_small": (50.0, "mm", "smietanski2014"),
}  # fmt: skip


@pytest.mark.parametrize("name", list(FIGURES))
def test_a_figure_is_what_its_source_says(name: str) -> None:
    figure = all_thresholds()[name.upper()]
    assert (figure.value, figure.unit, figure.source) == FIGURES[name]


def test_every_figure_stands_here() -> None:
    assert {name.lower() for name in all_thresholds()} == set(FIGURES)


def test_inches_and_millimetres_agree() -> None:
    """1/16 and 1/8 inch a side; a usual barrier of 4 inches (1 inch = 25.4 mm)."""
    assert FIGURES["gap_least"][0] == pytest.approx(25.4 / 16)
    assert FIGURES["gap_most"][0] == pytest.approx(25.4 / 8)
    assert FIGURES["barrier_across"][0] == pytest.approx(4 * 25.4)
