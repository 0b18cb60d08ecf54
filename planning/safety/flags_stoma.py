"""Red flags of the stoma's edge, opening and surface: a gap, bowel beside it, a cut, narrowing."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import PULSE_INFECTED
from planning.facts.derive import Facts
from planning.facts.in_words import joined
from planning.facts.separation import SeparationClass
from planning.inputs.findings import BaselineKind, Bleeding, Calibre, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety.baselines import as_known
from planning.safety.flag import NURSE, FlagRule, Verdict
from planning.safety.pain import CRAMPS
from planning.safety.signs import IN_THE_BELLY, fever, not_measured, pulse_over

_AT_JUNCTION: Final = "measurement.junction"
_NARROW: Final = (Calibre.LITTLE_FINGER, Calibre.FINGERTIP, Calibre.NOTHING)
_HOW_DEEP: Final = {
    SeparationClass.VERY_DEEP: "The gap is very deep, of unknown depth soon after surgery, or "
    "runs half or all round.",
    SeparationClass.OPEN: "The base of the gap is not visible, shows fascia or bowel, or stool, "
    "urine or pus is in it.",
}


def bowel_outside(facts: Facts) -> Verdict | None:
    if not facts.findings.measurement.bowel_outside:
        return None
    found = "Bowel or fat lies outside through the gap beside the stoma."
    return Verdict(Urgency.EMERGENCY, found, "measurement.bowel_outside")


def separation_deep(facts: Facts) -> Verdict | None:
    """Class 3 and 4. With fever and a painful belly any gap is an emergency; into the depth, any
    one sign of infection makes it one."""
    depth = facts.separation_class
    if depth is None:
        return None
    ill, belly = _ill(facts)
    if fever(facts) and belly:
        return Verdict(
            Urgency.EMERGENCY, "Mucocutaneous separation, with fever and a painful abdomen.",
            _AT_JUNCTION,
        )  # fmt: skip
    if depth is SeparationClass.OPEN and ill:
        found = f"{_HOW_DEEP[depth]} With {joined(ill)}."
        return Verdict(Urgency.EMERGENCY, found, _AT_JUNCTION)
    if depth < SeparationClass.VERY_DEEP or as_known(facts, BaselineKind.SEPARATION):
        return None
    ask = joined(not_measured(facts)) if depth is SeparationClass.OPEN else ""
    return Verdict(Urgency.SAME_DAY, _HOW_DEEP[depth], _AT_JUNCTION, ask)


def _ill(facts: Facts) -> tuple[list[str], bool]:
    """Signs that infection goes deep, and whether the belly hurts beyond the gap."""
    belly = facts.feels(*IN_THE_BELLY, Symptom.SWOLLEN_ABDOMEN)
    signs = (
        (fever(facts), "fever"),
        (facts.feels(Symptom.RIGORS), "rigors"),
        (belly, "a painful or swollen belly"),
        (pulse_over(PULSE_INFECTED, facts), "a fast pulse"),
    )
    return [words for there, words in signs if there], belly


def separation(facts: Facts) -> Verdict | None:
    """Class 2: up to 20 mm, its base seen and clean."""
    if facts.separation_class is not SeparationClass.DEEP:
        return None
    if as_known(facts, BaselineKind.SEPARATION):
        return None
    unseen = any(gap.base_visible is None for gap in facts.findings.measurement.junction or ())
    ask = "is the base of the gap to be seen" if unseen else ""
    return Verdict(Urgency.DAYS, "The mucocutaneous separation is deep.", _AT_JUNCTION, ask)


def separation_shallow(facts: Facts) -> Verdict | None:
    """Class 0 and 1: the nurse's own."""
    depth = facts.separation_class
    shallow = depth is not None and depth <= SeparationClass.SHALLOW
    if not shallow or as_known(facts, BaselineKind.SEPARATION):
        return None
    return Verdict(Urgency.DAYS, "The mucocutaneous separation is shallow.", _AT_JUNCTION)


def deep_cut(facts: Facts) -> Verdict | None:
    if not facts.findings.measurement.deep_cut:
        return None
    return Verdict(Urgency.SAME_DAY, "The stoma is cut deeply.", "measurement.deep_cut")


def rubbed(facts: Facts) -> Verdict | None:
    """A pale line or shallow cut is looked at again in a week; one that bleeds is seen today."""
    m = facts.findings.measurement
    if not m.rubbed or m.deep_cut:
        return None
    if m.bleeding not in (None, Bleeding.NONE):
        return Verdict(Urgency.SAME_DAY, "A cut in the stoma bleeds.", "measurement.rubbed")
    found = "There is a pale line or a shallow cut on the stoma."
    ask = "does it bleed" if m.bleeding is None else ""
    return Verdict(Urgency.TWO_WEEKS, found, "measurement.rubbed", ask)


def narrow(facts: Facts) -> Verdict | None:
    calibre = facts.findings.measurement.calibre
    forced = facts.feels(Symptom.EXPLOSIVE_OUTPUT) and facts.feels(*CRAMPS)
    troubled = facts.feels(Symptom.RIBBON_STOOL) or forced
    if calibre is Calibre.NOTHING or (troubled and calibre in _NARROW):
        found = "The opening is narrow: a finger hardly passes, and the output shows it."
        return Verdict(Urgency.DAYS, found, "measurement.calibre", also=_soft_stool(facts))
    if troubled:
        known = "" if calibre else "; how wide it is was not examined"
        found = f"Thin stool, or output that comes with force and cramps{known}."
        return Verdict(Urgency.TWO_WEEKS, found, "measurement.calibre", also=_soft_stool(facts))
    if calibre in _NARROW and not as_known(facts, BaselineKind.NARROW_LUMEN):
        found = "The opening is narrow: no more than a little finger passes."
        return Verdict(Urgency.TWO_WEEKS, found, "measurement.calibre", also=_soft_stool(facts))
    return None


def _soft_stool(facts: Facts) -> str:
    """Of a colostomy alone: what passes a urostomy or ileostomy is liquid."""
    colostomy = facts.kind is StomaKind.COLOSTOMY
    return "Ask the prescriber how the stool can be kept soft." if colostomy else ""


RULES: Final = (
    FlagRule(
        "bowel_outside",
        "Bowel outside, beside the stoma",
        "emergency department",
        "Lie down, cover with gauze moist with warm saline and keep it moist and warm, a loose "
        "pouch over it, nothing by mouth. Do not push it back; no dry gauze, no tight pouch.",
        ("evisceration2010/gauze", "evisceration2020/when", DESIGN),
        bowel_outside,
        "Bowel has come out beside your stoma. Lie down. Cover it with a clean wet cloth. Do not "
        "push it. Call for help now.",
    ),
    FlagRule(
        "separation_deep",
        "Deep mucocutaneous separation",
        "surgeon",
        "Look for signs of peritonitis. Record depth and hours. Flat and roomy over it; no "
        "convexity, no belt, nothing packed tight, no paste in it.",
        (MEMORY, DESIGN),
        separation_deep,
        "The edge of your stoma has opened. A surgeon must look now.",
        told_at={Urgency.SAME_DAY: "The edge of your stoma has opened. A surgeon must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "separation",
        "Mucocutaneous separation",
        "surgeon",
        "Tell the surgeon. Record depth and hours; fill, cover and pouch over it, and look again "
        "at every change.",
        (DESIGN,),
        separation,
        "The edge of your stoma has opened a little. The team will look within days.",
        within=("separation_deep",),
        adult_figures=True,
    ),
    FlagRule(
        "separation_shallow",
        "Shallow mucocutaneous separation",
        NURSE,
        "Rinse, fill loosely, cover and pouch over it; look again at every change.",
        (DESIGN,),
        separation_shallow,
        "The edge of your stoma has opened a little. The team will look within days.",
        adult_figures=True,
    ),
    FlagRule(
        "deep_cut",
        "Deep cut in the stoma",
        "surgeon",
        "Cut the opening larger; press if it bleeds.",
        ("seekhelp2009/deep_cut", DESIGN),
        deep_cut,
        "Your stoma has a deep cut. The team must look today.",
    ),
    FlagRule(
        "rubbed",
        "A cut or pale line on the stoma",
        NURSE,
        "Cut the opening larger and look again within a week.",
        (DESIGN,),
        rubbed,
        "The hole rubs on your stoma. Ask us for a new template.",
        within=("deep_cut",),
    ),
    FlagRule(
        "narrow",
        "Narrowing of the stoma",
        "surgeon",
        "Somebody trained examines how wide it is; ask for a biopsy where it is new years after "
        "cancer or bowel disease. No dilating, no finger by an untrained hand, no bran.",
        (PRACTICE, MEMORY, DESIGN),
        narrow,
        "Your stoma has become narrow. A surgeon will look within two weeks.",
        told_at={Urgency.DAYS: "Your stoma has become narrow. A surgeon will look within days."},
    ),
)
