"""Rules that are functions rather than rows of a table: how the choice is made.

Figures in the words come from ``planning.evidence.thresholds``, so that they cannot fall behind
the rule.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from planning import fixed_choice, instead, keep_current_system
from planning.evidence import thresholds as t
from planning.evidence.sources import DESIGN, PRACTICE
from planning.facts import change_day as wear_change_day
from planning.facts import change_interval, harmless, wear_survival
from planning.instructions import monthly_maximum, quantities, recount
from planning.needs.consistency import agreed
from planning.restraint import staging, which_ladder
from planning.rulebook.rule import StatedRule
from planning.rulebook.sizes import DIMENSIONS
from planning.supplies import (
    admissible,
    changed_parts,
    opening_size,
    options,
    search,
    step_down,
    trials,
)

_CHOICE: Final = (
    StatedRule("barred", "Which supplies may be chosen at all",
         "Not one with a hazard in force, not one the person reacts to, not a suspected product, "
         "not one that hurt before. A flat, flexible barrier always stays available: "
         "without a barrier no pouch could be worn.",
         admissible.barred, (PRACTICE, "hightech/outline"),
         "supplies/test_search.py::test_what_sensitised_is_never_offered"),
    StatedRule("agreed", "Needs that exclude one another",
         "Avoiding harm comes before fit: where a stiff barrier can injure, the one that bends "
         "is chosen. Where only an outward curve calls for bending, convexity or the open fold "
         "comes first.",
         agreed, (DESIGN, PRACTICE),
         "needs/test_consistency.py::test_a_deep_fold_is_held_open_only_where_that_harms_nothing"),
    StatedRule("reachable", "Convexity where none may be chosen",
         "With all convexity barred or tried without success, what only convexity needs is not "
         "asked for; the "
         "lift itself stays open and the plan says whom to ask.",
         search.reachable, (DESIGN,),
         "supplies/test_search.py::test_when_every_depth_failed_the_surgeon_is_asked"),
    StatedRule("order", "The order of choice",
         "All admissible combinations: most essential needs met, then most other needs, then "
         "fewest changes, fewest items, least effort and pressure.",
         search.search, (DESIGN,),
         "supplies/test_search.py::test_against_brute_force"),
    StatedRule("powder_and_film", "Powder and film go together",
         "Powder is sealed by film, unless film itself may not be used.",
         options.sealed, ("crusting/layers", PRACTICE),
         "supplies/test_search.py::test_powder_alone_where_protectant_is_the_culprit"),
    StatedRule("effort", "Effort for hands, eyes and skin",
         "Counts double for limited and three times for one hand or none; decides only between "
         "what is otherwise equal.",
         options.effort_of, (DESIGN,),
         "supplies/test_search.py::test_weak_hands_get_a_ready_cut_opening_where_one_fits"),
    StatedRule("proven", "What worked is kept",
         "Supplies of the newest plan that helped count as no change, except what hurt.",
         trials.proven, (PRACTICE,),
         "supplies/test_search.py::test_what_worked_counts_as_no_change"),
    StatedRule("step_up", "What failed steps up",
         "From flat to soft convex, then deeper or firmer: only what lifts more than all that "
         "failed since something last helped counts as lifting.",
         trials.stronger_than_failed, (PRACTICE, "rolstad2006/assess"),
         "supplies/test_search.py::test_what_leaks_steps_up_one_step"),
    StatedRule("step_down", "What injured steps down",
         "After a barrier that caused injury: only flatter or softer ones, and none deeper or "
         "firmer.",
         trials.too_strong, (PRACTICE,),
         "supplies/test_search.py::test_what_injured_steps_down"),
    StatedRule("why_lost", "Why the runner-up lost",
         "Named is the first point of the order at which it falls behind.",
         search.why_lost, (DESIGN,),
         "supplies/test_search.py::test_why_lost_names_the_need_left_open"),
)  # fmt: skip

_ALONE: Final = (
    StatedRule("fits_well", "A good fit: change nothing",
         "No red flag, sound skin, the used barrier read and intact, nothing worn that is "
         "hazardous, no opening smaller than the stoma, nothing recorded as lacking.",
         keep_current_system.fits_well, (PRACTICE,),
         "test_keep_current_system.py::test_everything_worn_is_kept_and_nothing_else"),
    StatedRule("kept_plan", "What the plan then contains",
         "Everything worn is kept, nothing is started, and the next visit is the routine one.",
         keep_current_system.kept_plan, (PRACTICE,),
         "test_keep_current_system.py::test_no_other_opening_is_proposed"),
)  # fmt: skip

_WEAR: Final = (
    StatedRule("wear_limits", "Latest change",
         f"Raw skin or a wound: every {t.WEAR_RAW.value:g} days. A barrier worn for more than "
         f"{t.WEAR_LONG.value:g} days: at {t.WEAR_LONG.value:g}.",
         change_interval.limits, (PRACTICE,),
         "facts/test_wear_survival.py::test_the_latest_change"),
    StatedRule("change_day", "Change day from the log",
         f"The latest whole day from {t.CHANGE_DAY_FIRST.value:g} to "
         f"{t.CHANGE_DAY_LAST.value:g} (extended-wear: from {t.EXTENDED_FROM.value:g}) to which "
         f"{t.CHANGE_DAY_HELD.value * 100:.0f} % of barriers held without a leak or a lift (Kaplan "
         f"and Meier), with {t.CHANGE_DAY_BARRIERS.value:g} barriers in the log and "
         f"{t.CHANGE_DAY_STILL_ON.value:g} still on then. Too few: the person's own day. None: a "
         "cause, else a refit. A new system starts a new count.",
         wear_change_day.change_day, wear_change_day.SOURCES,
         "facts/test_change_day.py::test_the_day_from_a_log"),
    StatedRule("as_worn", "How long barriers are worn",
         "The mean of the log with Student's 95 % interval, from 3 barriers on; else the published "
         "mean for the kind of stoma. It sets how many are used.",
         change_interval.as_worn, (DESIGN, "richbourg2008/means"),
         "instructions/test_quantities.py::test_the_interval_is_students"),
    StatedRule("lasting", "How long a barrier lasts until it fails",
         "Kaplan and Meier: median and the share that holds longer than "
         f"{t.WEAR_HELD.value:g} days, each with its 95 % interval, from "
         f"{t.LEAST_EPISODES.value:g} barriers on. Failed: leaked, fell off, itched or hurt. "
         "Planned changes and barriers still on count as not failed yet.",
         wear_survival.lasting, wear_survival.SOURCES,
         "facts/test_wear_survival.py::test_against_the_published_table"),
    StatedRule("changes_until", "Changes until the next visit",
         f"Days until then by days a barrier stays, rounded up, and {t.RESERVE.value:g} spare.",
         quantities.changes_until, (DESIGN,),
         "instructions/test_quantities.py::test_until_the_next_visit_with_one_spare"),
    StatedRule("pouches_a_change", "Pouches for one barrier",
         f"One; closed pouches {t.CLOSED_A_DAY.value:g} a day.",
         quantities.pouches_a_change, (DESIGN,),
         "instructions/test_quantities.py::test_closed_pouches_go_by_the_day"),
    StatedRule("monthly", "Amount a month",
         "30 days by days a barrier stays, rounded up, times what one change takes.",
         monthly_maximum.monthly, (DESIGN,),
         "instructions/test_quantities.py::test_changes_a_month"),
    StatedRule("against_maximum", "Over the usual maximum",
         "Shown beside the amount and again as a notice, if expected use is over it, or would be "
         "when barriers last only the short end of their interval. Lines with one code count "
         "together.",
         monthly_maximum.against_maximum, ("lcd/maxima",),
         "instructions/test_quantities.py::test_over_the_usual_maximum_is_said"),
    StatedRule("recounted", "Amounts for another change day than planned",
         f"Counted again for the days the clinician decided on, {t.WEAR_SHORT.value:g} to "
         f"{t.WEAR_TYPING_ERROR.value:g}; where their text names no single number of days, not "
         "known.",
         recount.recounted, (DESIGN,),
         "instructions/test_recount.py::test_counted_as_the_plan_counts"),
)  # fmt: skip

#: Group: its rules, in the order of the pipeline.
_RESTRAINT: Final = (
    StatedRule(
        "staged",
        "Correct now, change today, next",
        f"What harms is corrected whatever its number and counts first. What is left of "
        f"{t.MOST_CHANGES.value:g} changes goes to one step of the ladder for this leak, then to "
        "comfort; the other steps wait, each with its trigger.",
        staging.staged,
        (DESIGN, PRACTICE),
        "restraint/test_staging.py::test_no_plan_changes_more_than_two_things_but_corrections",
    ),
    StatedRule(
        "changed_parts",
        "What counts as one change",
        "A part added, dropped or swapped; another size of opening; care of damaged skin. Parts "
        "that need each other count once; a remover, a dressing and technique count as none.",
        changed_parts.changed_parts,
        (DESIGN,),
        "supplies/test_changed_parts.py::test_one_definition",
    ),
    StatedRule(
        "ladder_for",
        "Which ladder a leak calls for",
        "By its likeliest cause; thick stool, hands or eyes, a prolapse and a separation come "
        "before it. A melted barrier that let nothing under is changed sooner instead.",
        which_ladder.ladder_for,
        (PRACTICE, DESIGN),
        "restraint/test_ladders.py::test_which_ladder",
    ),
    StatedRule(
        "on_trial",
        "When a change is judged",
        f"After {t.JUDGE_BARRIERS.value:g} barriers or {t.JUDGE_DAYS.value:g} days, whichever "
        f"comes first, and not before {t.JUDGE_LEAST.value:g} barriers. Until then no next step.",
        staging.on_trial,
        (DESIGN,),
        "restraint/test_staging.py::test_a_change_on_trial_is_waited_for",
    ),
    StatedRule(
        "judge_opening",
        "When the opening in use stays",
        f"With {t.GAP_RUBS.value:g} to {t.GAP_MOST.value:g} mm a side, or wider over whole skin "
        "that is covered or that only formed stool reaches. It is changed where it rubs, bares "
        f"sore skin, or the size moved by {t.SIZE_CHANGED.value:g} mm or more.",
        opening_size.judge_opening,
        (DESIGN, "green2018/most", PRACTICE),
        "supplies/test_opening_size.py::test_when_the_opening_changes",
    ),
    StatedRule(
        "step_down",
        "A red mark that stays",
        f"Longer than {t.MARK_STAYS.value:g} minutes on whole skin: one step less pressure that "
        "day, the belt first.",
        step_down.step_down,
        (DESIGN,),
        "restraint/test_staging.py::test_a_mark_that_stays_takes_one_step_off",
    ),
    StatedRule(
        "occasional",
        "A single leak",
        f"No more than one leak in {t.LEAKS_ONCE_IN.value:g} barriers or more, with sound skin, "
        "changes nothing; a leak with a reason of its own counts as none.",
        harmless.harmless,
        (DESIGN,),
        "restraint/test_staging.py::test_one_leak_among_many_changes_nothing",
    ),
)

_INSTEAD: Final = (
    StatedRule(
        "alternatives",
        "What may be chosen instead",
        "Another supply for the same place or the same need, another size within the usual gap, "
        "another change day, or none where a system can do without. Each is tried as a whole plan "
        "and offered only where no danger, sensitivity or trial forbids it and the plan still "
        "agrees with itself. None in an emergency or under 16.",
        instead.alternatives,
        (DESIGN, PRACTICE),
        "test_instead.py::test_every_alternative_passes_the_gate",
    ),
    StatedRule(
        "with_fixed",
        "What follows from a choice",
        "The rest of the system stays as it was proposed; sizes, steps, amounts, the ladder and "
        "the next visit are worked out from the choice. Amounts are counted for the day chosen: "
        f"{t.WEAR_SHORT.value:g} to {t.CHANGE_DAY_LAST.value:g}, no later than raw skin or a wound "
        "allows, and not before day "
        f"{t.EXTENDED_FROM.value:g} for an extended-wear barrier.",
        fixed_choice.with_fixed,
        (DESIGN, PRACTICE),
        "test_fixed_choice.py::test_a_choice_changes_only_what_it_says",
    ),
)

DECISIONS: Final[Mapping[str, tuple[StatedRule, ...]]] = {
    "Restraint": _RESTRAINT,
    "Choice": _CHOICE,
    "Keeping the system": _ALONE,
    "Chosen instead": _INSTEAD,
    "Dimensions": DIMENSIONS,
    "Wear and amounts": _WEAR,
}
