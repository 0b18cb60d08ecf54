"""Every figure a rule compares with: unit, source, who checked it and when to look again.

Only the version of the rule set says which value held when: a figure changes together with
``RULE_SET``. ``source`` is a statement in ``planning.evidence.claims`` or one of the bases that are
no source. Rules read a figure by its name:
``GAP_TARGET.value``.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

#: No clinic has taken responsibility for these figures yet: the page of rules says so.
UNREVIEWED: Final = "not yet reviewed by a nurse specialised in ostomy care"

_REVIEW: Final = date(2027, 11, 25)


@dataclass(frozen=True, slots=True)
class Threshold:
    """One figure."""

    meaning: str
    value: float
    unit: str
    source: str
    checked_by: str = UNREVIEWED
    next_review: date = _REVIEW


def _figure(value: float, unit: str, source: str, meaning: str) -> Threshold:
    return Threshold(meaning, value, unit, source)


# --- age ------------------------------------------------------------------------------------
CHILD_UNDER: Final = _figure(16, "years", "design_value", "under this age no figure for adults")

# --- opening --------------------------------------------------------------------------------
GAP_TARGET: Final = _figure(2.0, "mm", "design_value", "gap per side aimed at")
GAP_LEAST: Final = _figure(1.5875, "mm", "sizing2020/gap", "least usual gap per side, 1/16 inch")
GAP_MOST: Final = _figure(3.175, "mm", "green2018/most", "largest usual gap per side, 1/8 inch")
GAP_RUBS: Final = _figure(1.0, "mm", "common_practice", "a plain cut edge nearer than this rubs")
ROUND_RATIO: Final = _figure(1.15, "", "design_value", "longest over crosswise still called round")
PRE_CUT_FROM: Final = _figure(56, "days", "design_value", "earliest pre-cut opening after surgery")
PRE_CUT_STABLE: Final = _figure(14, "days", "design_value", "two equal sizes at least this apart")
SIZE_LEAST: Final = _figure(10.0, "mm", "design_value", "a stoma smaller than this: measure again")
SIZE_MOST: Final = _figure(80.0, "mm", "design_value", "a stoma larger than this: measure again")
SIZE_OLD: Final = _figure(30, "days", "design_value", "an older size is not cut to")
SIZE_OLD_EARLY: Final = _figure(7, "days", "design_value", "the same while a new stoma shrinks")

SIZE_CHANGED: Final = _figure(3.0, "mm", "design_value", "a diameter changed for certain")
SAME_SIZE: Final = _figure(1.0, "mm", "design_value", "sizes closer than this are the same")
BARRIER_RIM: Final = _figure(10.0, "mm", "common_practice", "least barrier beyond ring or opening")

# --- two stomas on one belly -------------------------------------------------------------------
ONE_BARRIER_UNDER: Final = _figure(30.0, "mm", "common_practice", "closer: one barrier for both")
BARRIER_BRIDGE: Final = _figure(10.0, "mm", "common_practice", "least barrier between two holes")

# --- protrusion -----------------------------------------------------------------------------
RETRACTED_AT: Final = _figure(-5.0, "mm", "from_memory", "retracted at or below this height")
FLUSH_TO: Final = _figure(4.0, "mm", "design_value", "flush up to this height")
SPOUT_TROUBLE: Final = _figure(
    20.0, "mm", "persson2010/ileostomy", "ileostomy shorter than this leaks"
)
SPOUT_TROUBLE_URINE: Final = _figure(20.0, "mm", "design_value", "urostomy, as for ileostomy")
COLOSTOMY_TROUBLE: Final = _figure(
    5.0, "mm", "persson2010/colostomy", "colostomy lower than this leaks"
)
SPOUT_LONG: Final = _figure(30.0, "mm", "from_memory", "upper end of the target of a spout")
COLOSTOMY_LONG: Final = _figure(15.0, "mm", "from_memory", "upper end of the target, colostomy")
SPOUT_LOW: Final = _figure(
    10.0, "mm", "common_practice", "leaking and lower than this: convexity advised"
)
SEPARATES_LOW: Final = _figure(10.0, "mm", "ayik2020/low", "lower than this: separates more often")
PROLAPSE_HEIGHT: Final = _figure(50.0, "mm", "design_value", "higher than this: think of prolapse")
PROLAPSE_RISE: Final = _figure(25.0, "mm", "design_value", "rise since last visit: prolapse?")

# --- convexity ------------------------------------------------------------------------------
SHALLOW_TO: Final = _figure(3.0, "mm", "mcnichol2021/depth", "shallow convexity up to this depth")
DEEP_FROM: Final = _figure(8.0, "mm", "mcnichol2021/depth", "deep convexity from this depth")
LEAST_LIFT: Final = _figure(1.0, "mm", "design_value", "least depth of convexity worth asking for")
EARLY_DAYS: Final = _figure(
    30, "days", "design_value", "a stoma is new: convexity only once assessed"
)
PRESSURE_CHECK: Final = _figure(7, "days", "design_value", "pressure check after convexity or belt")

# --- ring, strip, paste, bulge, crease ------------------------------------------------------
RING_OUTER: Final = _figure(50.0, "mm", "common_practice", "round ring, outer diameter")
RING_INNER: Final = _figure(18.0, "mm", "common_practice", "round ring, hole unstretched")
RING_THICKNESS: Final = _figure(4.5, "mm", "common_practice", "round ring, thickness")
RING_STRETCH: Final = _figure(2.0, "times", "common_practice", "hole stretches at most this much")
STRIP_THICKNESS: Final = _figure(4.0, "mm", "common_practice", "strip, thickness, upper end")
STRIP_LAYERS: Final = _figure(2, "layers", "design_value", "strips stacked in one crease at most")
PASTE_DEPTH: Final = _figure(2.0, "mm", "design_value", "paste fills no deeper than this")
HALF_RINGS: Final = _figure(3, "layers", "design_value", "half rings stacked at most")
BARRIER_ACROSS: Final = _figure(
    101.6, "mm", "design_value", "barrier of 4 by 4 inch, taken as round"
)

# --- where products touch the skin ----------------------------------------------------------
PASTE_REACH: Final = _figure(16.0, "mm", "design_value", "paste spreads so far out, as a ring lies")
TAPE_BORDER: Final = _figure(15.0, "mm", "design_value", "tape so far either side of the outline")
FISTULA_CLEAR: Final = _figure(10.0, "mm", "design_value", "nothing presses nearer to a fistula")

# --- skin -----------------------------------------------------------------------------------
MARK_STAYS: Final = _figure(30, "minutes", "design_value", "a red mark that stays longer harms")
LOWEST_SHARE: Final = _figure(0.6, "", "design_value", "share of a finding at the lowest hours")
CREASE_SHARE: Final = _figure(0.75, "", "design_value", "share of a finding along a crease")
ONE_SIDED: Final = _figure(0.5, "", "design_value", "concentration that makes a side")
ALL_ROUND: Final = _figure(10, "hours", "design_value", "hours that count as all round")
RAW_WIDE: Final = _figure(20.0, "mm", "design_value", "raw skin wider than this: nurse in days")
PYODERMA_PAIN: Final = _figure(7, "of 10", "design_value", "pain that raises pyoderma")
HEALING_DAYS: Final = _figure(14, "days", "design_value", "no improvement by then: refer")
LUMP_DAYS: Final = _figure(28, "days", "design_value", "a lump lasting longer: biopsy")

NEAR_EDGE: Final = _figure(5.0, "mm", "design_value", "damage that lies at the stoma's edge")
AWAY_FROM_EDGE: Final = _figure(10.0, "mm", "design_value", "damage that lies away from the edge")
BELT_FROM: Final = _figure(40.0, "mm", "design_value", "a belt lies over the skin from here out")
CANCER_AFTER: Final = _figure(
    730, "days", "malignancy2010/late", "earliest reported cancer at a stoma"
)

# --- output ---------------------------------------------------------------------------------
OUTPUT_CALL: Final = _figure(
    1000, "mL/24 h", "gateshead/call_1000", "ileostomy output to call about"
)
OUTPUT_MORE: Final = _figure(
    1200, "mL/24 h", "leicester2005/kidneys", "a new stoma: kidneys at risk"
)
OUTPUT_URGENT: Final = _figure(1500, "mL/24 h", "design_value", "high output, on one reading")
OUTPUT_EMERGENCY: Final = _figure(2000, "mL/24 h", "design_value", "high output, emergency")
OUTPUT_NEW: Final = _figure(42, "days", "design_value", "a stoma still new, by its output")
OUTPUT_RUNNING: Final = _figure(2, "days", "design_value", "days running that count as lasting")
OUTPUT_RISE: Final = _figure(500, "mL/24 h", "design_value", "above the own mean or the target")
TARGET_SHARE: Final = _figure(0.25, "", "design_value", "above an agreed target: alarming")
RISK_AGE: Final = _figure(65, "years", "design_value", "from here age is a risk of dehydration")
FRAIL_AGE: Final = _figure(75, "years", "design_value", "from here output counts one step higher")
URINE_LOW: Final = _figure(800, "mL/24 h", "design_value", "less urine: seen the same day")
URINE_NONE: Final = _figure(8, "h", "design_value", "no urine for so long: emergency")
PULSE_FAST: Final = _figure(100, "per minute", "design_value", "faster: dry, or bleeding")
WEIGHT_SUDDEN: Final = _figure(2.0, "kg", "design_value", "lost in 48 hours")
WEIGHT_SUDDEN_DAYS: Final = _figure(2, "days", "design_value", "the time of that loss")
WEIGHT_WEEK: Final = _figure(3.0, "kg", "design_value", "lost in a week")
WEIGHT_WEEK_SHARE: Final = _figure(0.05, "", "design_value", "the same as a share of the weight")
WEIGHT_WEEK_DAYS: Final = _figure(7, "days", "design_value", "the time of that loss")
FEVER_FROM: Final = _figure(38.0, "C", "design_value", "fever")
COLD_UNDER: Final = _figure(36.0, "C", "design_value", "too cold")
WATERY_HOURS: Final = _figure(24, "h", "gateshead/watery", "watery for longer than this: call")
SILENT_ILEO_PAIN: Final = _figure(4, "h", "obstruction/four_hours", "no output with severe cramps")
SILENT_ILEO: Final = _figure(6, "h", "design_value", "no output, no pain")
SILENT_ILEO_LONG: Final = _figure(24, "h", "design_value", "no output for so long: emergency")
SILENT_COLO_PAIN: Final = _figure(24, "h", "common_practice", "no output with pain or vomiting")
SILENT_COLO: Final = _figure(72, "h", "common_practice", "no output, otherwise well")
SILENT_URO: Final = _figure(2, "h", "from_memory", "no urine despite drinking")
SILENT_URO_LONG: Final = _figure(4, "h", "from_memory", "no urine, whatever else")
URINE_OF_USUAL: Final = _figure(0.5, "", "design_value", "less than this share of the usual urine")
URINE_PER_KG: Final = _figure(0.5, "mL/kg/h", "design_value", "less urine by weight: same day")
BLEED_STOPPED_DAYS: Final = _figure(
    14, "days", "design_value", "a heavier bleed stopped since then"
)
URINE_LITTLE: Final = _figure(400, "mL/24 h", "design_value", "less urine than this: same day")
EARLY_ISCHAEMIA: Final = _figure(7, "days", "design_value", "look at every stoma so early")
SUNKEN_DEEP: Final = _figure(-20.0, "mm", "design_value", "so deep soon after surgery: emergency")
SEPARATION_VERY_DEEP: Final = _figure(20.0, "mm", "design_value", "deeper gap: surgeon same day")
SILENT_ILEO_DAY: Final = _figure(12, "h", "design_value", "no output, no pain: seen today")
SEPARATION_LINE: Final = _figure(2.0, "mm", "design_value", "a gap less deep is a line")
SEPARATION_SHALLOW: Final = _figure(5.0, "mm", "design_value", "a gap up to here is shallow")
SEPARATION_HALF: Final = _figure(6, "hours", "design_value", "half the ring apart: very deep")
SPOT_WIDE: Final = _figure(6.0, "mm", "design_value", "a dark spot larger than this")
WARTY_DAYS: Final = _figure(42, "days", "design_value", "warty skin that stays: biopsy")
HOURS_TO_SPREAD: Final = _figure(24, "h", "from_memory", "spread in hours, not in days")
EDGE_PASSED: Final = _figure(4, "h", "design_value", "redness past its mark so soon: emergency")
PROLAPSE_LONGER: Final = _figure(25.0, "mm", "design_value", "longer than agreed by so much")
HEIGHT_LOWER: Final = _figure(5.0, "mm", "design_value", "lower than agreed by so much")
BULGE_LARGER: Final = _figure(30.0, "mm", "design_value", "larger than agreed by so much")
FIRST_AID_FROM: Final = _figure(42, "days", "design_value", "no first aid by oneself before")
PAIN_MODERATE: Final = _figure(4, "of 10", "design_value", "unexplained pain to look into")
PAIN_STRONG: Final = _figure(7, "of 10", "design_value", "unexplained pain: same day")

# --- children ---------------------------------------------------------------------------------
CHILD_CALL: Final = _figure(20, "mL/kg/24 h", "from_memory", "child's output: telephone the team")
CHILD_TODAY: Final = _figure(30, "mL/kg/24 h", "from_memory", "child's output: same day")
CHILD_NOW: Final = _figure(40, "mL/kg/24 h", "from_memory", "child's output: emergency")
CHILD_RISE: Final = _figure(1.5, "times", "design_value", "of the child's own mean: telephone")
CHILD_UNCHANGED: Final = _figure(
    14, "days", "design_value", "so long on record: no emergency alone"
)
CHILD_THIN: Final = _figure(0.05, "", "from_memory", "share of a child's weight lost: same day")
CHILD_WASTED: Final = _figure(0.10, "", "from_memory", "share of a child's weight lost: emergency")
CHILD_DRY_HOURS: Final = _figure(6, "h", "from_memory", "no wet nappy or no urine: emergency")
FOLLOW_INFANT: Final = _figure(7, "days", "design_value", "a baby's stoma is measured again")
FOLLOW_TODDLER: Final = _figure(30, "days", "design_value", "the same from 1 to 2 years")
FOLLOW_CHILD: Final = _figure(91, "days", "design_value", "a child's review, 3 months")
# --- temperature, pulse, breathing, blood pressure ---------------------------------------------
FEVER: Final = _figure(38.0, "°C", "design_value", "fever, measured once")
TOO_COLD: Final = _figure(36.0, "°C", "design_value", "lower: danger with weak defences")
PULSE_INFECTED: Final = _figure(100, "a minute", "design_value", "faster, with an infection")
PULSE_EARLY: Final = _figure(110, "a minute", "design_value", "faster at rest, soon after surgery")
PULSE_ANY_DAY: Final = _figure(130, "a minute", "from_memory", "faster: emergency on any day")
BREATHS_MOST: Final = _figure(25, "a minute", "from_memory", "so fast: emergency on any day")
SYSTOLIC_LEAST: Final = _figure(90, "mmHg", "from_memory", "so low: emergency on any day")
SYSTOLIC_LOW: Final = _figure(100, "mmHg", "from_memory", "so low with another sign: emergency")

# --- how much at once -----------------------------------------------------------------------
MOST_CHANGES: Final = _figure(2, "changes", "design_value", "of what is worn, at one visit")

# --- wear -----------------------------------------------------------------------------------
WEAR_LONG: Final = _figure(7.0, "days", "common_practice", "worn longer than this: warn")
WEAR_SHORT: Final = _figure(1.0, "days", "design_value", "worn shorter than this: warn")
WEAR_OFTEN: Final = _figure(2.0, "days", "design_value", "changed so often it strips skin")
WEAR_ENOUGH: Final = _figure(3, "barriers", "design_value", "fewest to judge one person by")
WEAR_TYPING_ERROR: Final = _figure(14.0, "days", "design_value", "beyond this a typing error")
WEAR_RAW: Final = _figure(3.0, "days", "common_practice", "longest wear on raw skin")
WEAR_USUAL_ILEO: Final = _figure(5.01, "days", "richbourg2008/means", "mean wear, ileostomy")
WEAR_USUAL_COLO: Final = _figure(4.55, "days", "richbourg2008/means", "mean wear, colostomy")
WEAR_USUAL_URO: Final = _figure(5.02, "days", "richbourg2008/means", "mean wear, urostomy")
CHANGE_DAY_FIRST: Final = _figure(2, "days", "design_value", "earliest change day from a log")
CHANGE_DAY_LAST: Final = _figure(7, "days", "design_value", "latest change day from a log")
CHANGE_DAY_HELD: Final = _figure(0.9, "", "design_value", "share holding to the change day")
CHANGE_DAY_BARRIERS: Final = _figure(8, "barriers", "design_value", "least log for a change day")
CHANGE_DAY_STILL_ON: Final = _figure(5, "barriers", "design_value", "still on at the change day")
EXTENDED_FROM: Final = _figure(3, "days", "design_value", "earliest change, extended-wear barrier")
WEAR_HELD: Final = _figure(3.0, "days", "design_value", "share of barriers still holding is given")
LEAK_RATE_AMBER: Final = _figure(0.2, "leaks per change", "design_value", "leaks often")
LEAK_RATE_RED: Final = _figure(0.4, "leaks per change", "leak2016/quality", "leaks very often")
LEAKS_ONCE_IN: Final = _figure(8, "barriers", "design_value", "one leak in so many: watch only")
LEAKS_A_WEEK: Final = _figure(3.0, "per week", "design_value", "leaks a week that skip a step")
JUDGE_LEAST: Final = _figure(3, "barriers", "design_value", "fewest before a change is judged")
JUDGE_BARRIERS: Final = _figure(5, "barriers", "design_value", "judge a change after so many")
JUDGE_DAYS: Final = _figure(14, "days", "design_value", "or after so long, whichever comes first")
LEAKS_A_DAY: Final = _figure(2.0, "per 24 h", "design_value", "leaks a day that need a refit")

# --- measuring again ------------------------------------------------------------------------
SHRINKS_DAYS: Final = _figure(56, "days", "mskcc/shrinks", "stoma still shrinks after surgery")
CLOSED_A_DAY: Final = _figure(2.0, "per day", "design_value", "closed pouches used a day")
RESERVE: Final = _figure(1, "changes", "design_value", "spare changes in hand")

# --- seeing again ---------------------------------------------------------------------------
FOLLOW_NEXT_DAY: Final = _figure(1, "days", "design_value", "after an urgent referral")
FOLLOW_SOON: Final = _figure(3, "days", "design_value", "after a call or a referral in days")
FOLLOW_SKIN: Final = _figure(7, "days", "design_value", "damaged skin")
FOLLOW_CHANGE: Final = _figure(14, "days", "common_practice", "after any change of product")
FOLLOW_RESTLESS: Final = _figure(3, "days", "design_value", "dementia, pulled off or restless")
FOLLOW_YEAST: Final = _figure(7, "days", "common_practice", "after yeast was found")
PREGNANCY_LATE_FROM: Final = _figure(28, "weeks", "design_value", "from then measured more often")
PREGNANCY_EARLY: Final = _figure(28, "days", "design_value", "between sizes before that week")
PREGNANCY_LATE: Final = _figure(14, "days", "design_value", "between sizes from that week on")
FOLLOW_TWO_WEEKS: Final = _figure(14, "days", "common_practice", "after a two-week referral")

# --- figures out of several visits -----------------------------------------------------------
LEAST_EPISODES: Final = _figure(5, "observations", "design_value", "fewest for a survival curve")
LEAST_FAILURES: Final = _figure(5, "failures", "design_value", "fewest to compare two curves")
WEAR_COMPARED: Final = _figure(3, "days", "design_value", "share of barriers still holding then")

# --- is it a change, did it help ---------------------------------------------------------------
SIZE_SEM: Final = _figure(1.0, "mm", "design_value", "error of measuring length and width")
PROTRUSION_SEM: Final = _figure(1.5, "mm", "design_value", "error of measuring protrusion")
BULGE_HEIGHT_SEM: Final = _figure(2.0, "mm", "design_value", "error of measuring a bulge's height")
BULGE_WIDTH_SEM: Final = _figure(5.0, "mm", "design_value", "error of measuring a bulge's width")
PROLAPSE_SEM: Final = _figure(2.5, "mm", "design_value", "error of measuring a prolapse")
OUTPUT_SEM: Final = _figure(0.10, "", "design_value", "error of a day's output, share of it")
SKIN_SEM_SHARE: Final = _figure(0.15, "", "design_value", "error of a sore area, share of it")
SKIN_SEM_LEAST: Final = _figure(10.0, "mm2", "design_value", "least error of a sore area")
SIZE_SEM_ONE: Final = _figure(0.7, "mm", "design_value", "error of a size, one nurse measuring")
PROTRUSION_SEM_ONE: Final = _figure(1.0, "mm", "design_value", "error of a height, one nurse")
SKIN_SEM_SHARE_ONE: Final = _figure(0.10, "", "design_value", "error of a sore area, one nurse")
REPEATS_LEAST: Final = _figure(
    20, "repeats", "design_value", "from so many the clinic's own error of measuring is used"
)
OUTCOME_BARRIERS: Final = _figure(5, "barriers", "design_value", "fewest before and after a plan")
LOOKS: Final = _figure(3, "looks", "design_value", "a plan is judged so often, no more")
LOOK_LEVEL: Final = _figure(
    0.0221, "", "pocock1977/looks", "chance allowed at each of three looks: 0.05 in all"
)
LOOK_EVERY: Final = _figure(28, "days", "design_value", "one look in each such time")
LOOK_FROM: Final = _figure(14, "days", "design_value", "and not before so much of it")
ALIKE_LEVEL: Final = _figure(0.10, "", "design_value", "outside the interval of no different")
RATE_MARGIN: Final = _figure(1.5, "times", "design_value", "0.67 to 1.50 times is no different")
PAIN_MARGIN: Final = _figure(2, "of 10", "design_value", "change of pain from there on is shown")
WEAR_MARGIN: Final = _figure(1.0, "days", "design_value", "wear within so much is no different")
RUN_IN: Final = _figure(14, "days", "design_value", "before a visit: may be what made the visit")
BEFORE_LEAST: Final = _figure(28, "days", "design_value", "least diary before that time")
CHECK_LEAST: Final = _figure(14, "days", "design_value", "or so much after a first check")
BEFORE_MOST: Final = _figure(84, "days", "design_value", "diary before that is compared with")
SEASON: Final = _figure(
    0.15, "", "design_value", "share by which leaks may rise and fall with the year"
)
YEAR: Final = _figure(365.25, "days", "design_value", "length of a year")
POWER: Final = _figure(0.80, "", "common_practice", "chance at which a difference is said to show")
CHART_STEP: Final = _figure(1.0, "step", "design_value", "a border may be charted so far off")
COURSE_WINDOW: Final = _figure(180, "days", "design_value", "how far back a change is looked for")
WEAR_WINDOW: Final = _figure(56, "days", "design_value", "how far back falling wear is looked for")
WEAR_FALLS_P: Final = _figure(0.05, "", "design_value", "chance below which wear falls")
HERNIA_SMALL: Final = _figure(
    50.0, "mm", "smietanski2014/classes", "small parastomal defect up to this"
)


def all_thresholds() -> dict[str, Threshold]:
    """Every figure by its name, for the page of rules."""
    return {name: v for name, v in globals().items() if isinstance(v, Threshold)}
