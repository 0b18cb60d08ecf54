"""Red flags of bleeding from the stoma and its edge; blood within urine has a file of its own.

By tiers: contact, contact with a known risk, persistent, heavy; veins and liver disease apart.
"""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import BLEED_STOPPED_DAYS
from planning.facts.colour import colours
from planning.facts.derive import Facts
from planning.inputs.findings import (
    BaselineKind,
    Bleeding,
    Colour,
    Condition,
    PouchBlood,
    SkinKind,
    StomaKind,
    Symptom,
)
from planning.results.plan import Urgency
from planning.safety import medicines
from planning.safety.baselines import as_known
from planning.safety.flag import FlagRule, Verdict
from planning.safety.vital_signs import anticoagulated, pulse_fast

_E, _S, _T = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE
_AT: Final = "measurement.bleeding"
_AT_POUCH: Final = "output.pouch_blood"
_INSIDE: Final = (Bleeding.SEVERAL_EMPTIES, Bleeding.FROM_LUMEN)
#: Blood for certain; ``FOOD_COLOUR`` may be.
_IN_POUCH: Final = (PouchBlood.ONCE, PouchBlood.SEVERAL_EMPTIES, PouchBlood.CLOTS)
_LIVER_TEAM: Final = "liver team, by telephone"


def _faint(facts: Facts) -> bool:
    return facts.feels(Symptom.FAINTNESS, Symptom.DIZZY_ON_STANDING)


def bleeds_on(facts: Facts) -> bool:
    """More than a trace on wiping, outside or in the pouch."""
    outside = facts.findings.measurement.bleeding in (Bleeding.OOZE_AT_JUNCTION, *_INSIDE)
    return outside or facts.findings.output.pouch_blood in _IN_POUCH


# --- heavy ----------------------------------------------------------------------------------
def spurting(facts: Facts) -> Verdict | None:
    if facts.findings.measurement.bleeding is not Bleeding.SPURTING_OR_UNSTOPPED:
        return None
    found = "Blood spurts, or did not stop under 10 minutes of firm pressure."
    return Verdict(_E, found, _AT, also=medicines.bleeding(facts))


def heavy(facts: Facts) -> Verdict | None:
    """A bleed that goes on, with a fast pulse: much blood is gone."""
    if not bleeds_on(facts) or not pulse_fast(facts):
        return None
    pulse = facts.findings.output.vitals.pulse
    found = f"It bleeds, and the pulse is {pulse:g}."
    return Verdict(_E, found, _AT, also=medicines.bleeding(facts))


# --- veins and liver disease --------------------------------------------------------------------
def at_risk_of_varices(facts: Facts) -> bool:
    """Veins seen, liver disease known or not: as varices."""
    return bool(facts.has(Condition.LIVER_DISEASE) or facts.find(SkinKind.DILATED_VEINS))


def veins(facts: Facts) -> Verdict | None:
    """Veins that do not bleed: reported once, then known."""
    seen = facts.find(SkinKind.DILATED_VEINS)
    if not seen or as_known(facts, BaselineKind.VARICES):
        return None
    return Verdict(Urgency.DAYS, "Dilated veins round the stoma.", seen[0].path)


def variceal(facts: Facts) -> Verdict | None:
    """A trace that stopped is a call to the liver team; anything that goes on is an emergency."""
    bleeding = facts.findings.measurement.bleeding
    outside = bleeding not in (None, Bleeding.NONE)
    bowel = facts.kind is not StomaKind.UROSTOMY
    inside = bowel and facts.findings.output.pouch_blood in _IN_POUCH
    if not at_risk_of_varices(facts) or not (outside or inside):
        return None
    found = "It bleeds, with liver disease or dilated veins."
    if bleeding is not Bleeding.ON_WIPING or inside:
        return Verdict(_E, found, _AT, also=medicines.bleeding(facts))
    if not facts.find(SkinKind.DILATED_VEINS) and as_known(facts, BaselineKind.CONTACT_BLEEDING):
        return None
    return Verdict(
        _T,
        found,
        _AT,
        also="It becomes an emergency only if it starts again. Veins looked for.",
        refer_to=_LIVER_TEAM,
    )


# --- persistent -----------------------------------------------------------------------------
def blood_in_output(facts: Facts) -> Verdict | None:
    """Seen at the lumen, or in the pouch of a bowel stoma. Clots in it are a heavy bleed."""
    if facts.kind is StomaKind.UROSTOMY:
        return None
    pouch = facts.findings.output.pouch_blood
    if pouch is PouchBlood.CLOTS:
        also = medicines.bleeding(facts)
        return Verdict(_E, "Blood clots in the pouch.", _AT_POUCH, also=also)
    if facts.findings.measurement.bleeding in _INSIDE:
        return _goes_on(facts, "Blood in several emptyings, or from inside the stoma.", _AT)
    if pouch in _IN_POUCH:
        return _goes_on(facts, "Blood in the pouch.", _AT_POUCH)
    return None


def red_food(facts: Facts) -> Verdict | None:
    """Red after red food or drink is no blood only where stoma and junction were swabbed clean."""
    m = facts.findings.measurement
    red = facts.findings.output.pouch_blood is PouchBlood.FOOD_COLOUR
    if not red or facts.kind is StomaKind.UROSTOMY:
        return None
    if _faint(facts):
        return Verdict(_E, "The pouch is red, and the person is faint.", _AT_POUCH)
    if m.bleeding is Bleeding.ON_WIPING:
        found = "The pouch is red, put down to food; but the stoma bleeds when it is wiped."
        return Verdict(_S, found, _AT_POUCH)
    if m.bleeding is not None:
        # Clean, or a bleed that has a rule of its own.
        return None
    found = "The pouch is red, put down to food; stoma and junction were not looked at."
    return Verdict(_S, found, _AT_POUCH, ask="is a swab of stoma and junction clean")


def oozing(facts: Facts) -> Verdict | None:
    """Where veins or liver disease are known, the rule for those says more."""
    oozes = facts.findings.measurement.bleeding is Bleeding.OOZE_AT_JUNCTION
    if not oozes or variceal(facts) is not None:
        return None
    return _goes_on(facts, "The mucocutaneous junction oozes blood.", _AT)


def _goes_on(facts: Facts, found: str, at: str) -> Verdict:
    """An emergency with liver disease, an anticoagulant, faint or pale. An antiplatelet alone, and
    what is not known, leaves it at the same day."""
    thinner = anticoagulated(facts)
    pale = facts.feels(Symptom.PALE) or Colour.PALE in colours(facts)
    why = " An anticoagulant is taken." if thinner else ""
    worse = thinner or facts.has(Condition.LIVER_DISEASE) or _faint(facts) or pale
    open_ = {
        "an anticoagulant": thinner is None,
        "liver disease": facts.has(Condition.LIVER_DISEASE) is None,
    }
    ask = "" if worse else ", ".join(words for words, unknown in open_.items() if unknown)
    also = medicines.bleeding(facts)
    return Verdict(_E if worse else _S, found + why, at, ask=ask, also=also)


# --- contact --------------------------------------------------------------------------------
def contact(facts: Facts) -> Verdict | None:
    """A trace on wiping under an anticoagulant or with few platelets: a call, once. Where these are
    not known they are asked; it is a call only if it comes again."""
    wiped = facts.findings.measurement.bleeding is Bleeding.ON_WIPING
    if not wiped or variceal(facts) or as_known(facts, BaselineKind.CONTACT_BLEEDING):
        return None
    thinner, platelets = anticoagulated(facts), facts.has(Condition.LOW_PLATELETS)
    why = {"an anticoagulant is taken": thinner, "platelets are low": platelets}
    known = [words for words, holds in why.items() if holds]
    if known:
        found = f"It bleeds a little on wiping, and {' and '.join(known)}."
        return Verdict(_T, found, _AT, also=medicines.bleeding(facts))
    open_ = None in (thinner, platelets, facts.has(Condition.LIVER_DISEASE))
    if not open_ or not _bled_before(facts):
        return None
    found = "It bleeds a little on wiping, again; what makes it bleed more easily is not known."
    return Verdict(
        _T,
        found,
        _AT,
        ask="an anticoagulant, platelets, liver disease",
        refer_to="stoma team, by telephone",
    )


def _bled_before(facts: Facts) -> bool:
    """A trace at the visit before too."""
    previous = facts.history.previous
    return bool(previous) and previous[-1].measurement.bleeding is Bleeding.ON_WIPING


# --- stopped --------------------------------------------------------------------------------
def bleed_stopped(facts: Facts) -> Verdict | None:
    """A heavier bleed, or one of a varix, that stopped in the last 14 days."""
    days = facts.findings.measurement.bleeding_stopped_days
    if days is None or days > BLEED_STOPPED_DAYS.value:
        return None
    also = medicines.bleeding(facts)
    if at_risk_of_varices(facts):
        also = f"Liver team within three days. {also}".strip()
    return Verdict(
        _S, f"A bleed stopped {days:g} days ago.", "measurement.bleeding_stopped_days", also=also
    )


_PRESS: Final = "Press firmly on the spot that bleeds."

RULES: Final = (
    FlagRule(
        "spurting",
        "Bleeding that does not stop",
        "emergency department",
        "Keep pressing firmly all the way there; call for help.",
        ("barr2004/pumping", DESIGN),
        spurting,
        f"{_PRESS} Do not let go. Call for help now.",
        within=("variceal_bleed",),
        adult_figures=True,
    ),
    FlagRule(
        "heavy_bleed",
        "Bleeding with a fast pulse",
        "emergency department",
        "Press firmly where it bleeds; lay the person flat; blood count.",
        (DESIGN,),
        heavy,
        f"{_PRESS} Lie flat. Call for help now.",
        within=("spurting", "variceal_bleed"),
        adult_figures=True,
    ),
    FlagRule(
        "variceal_bleed",
        "Bleeding with liver disease or varices",
        "emergency department",
        "Press firmly on one spot without letting go, lay the person flat. Say: liver disease, "
        "possible stomal varices. Flat, soft system, nothing that presses; no caustic stick.",
        ("ectopicvarices/at_once", "strauss2014/at_once", "stomalvarices/press", PRACTICE),
        variceal,
        f"{_PRESS} Lie flat. Call for help now.",
        told_at={
            _T: "Your stoma bled when it was wiped. The liver team must hear of it today.",
        },
    ),
    FlagRule(
        "veins",
        "Varices round the stoma",
        "liver specialist and surgeon",
        "Soft flat barrier, smooth opening with room, gentle peeling, few changes; no convexity, "
        "no belt; print what to do when it bleeds. Then agree it as known.",
        ("white/review", MEMORY, DESIGN),
        veins,
        "There are wide veins round your stoma. A doctor will look within days.",
    ),
    FlagRule(
        "blood_in_output",
        "Blood from inside the stoma",
        "physician or emergency department",
        "Blood count; say where the blood comes from: lumen, surface or junction.",
        ("seekhelp2009/blood", "barr2004/lumen", DESIGN),
        blood_in_output,
        "There is blood from inside your stoma. A doctor must look today.",
        told_at={_E: "There is blood from inside your stoma. A doctor must look now."},
    ),
    FlagRule(
        "red_food",
        "Red output, put down to food",
        "stoma team or physician",
        "Swab stoma and junction. Look again if the red outlasts the food by a day.",
        (DESIGN,),
        red_food,
        "What comes out is red. The team must look today.",
        told_at={_E: "What comes out is red, and you feel faint. A doctor must look now."},
    ),
    FlagRule(
        "oozing",
        "Bleeding at the junction that goes on",
        "physician or emergency department",
        "Press; see whether it comes from the stoma, the gap or a vein. No caustic stick.",
        (DESIGN,),
        oozing,
        "The edge of your stoma bleeds. A doctor must look today.",
        within=("blood_in_output",),
        told_at={_E: "The edge of your stoma bleeds. Press firmly. A doctor must look now."},
    ),
    FlagRule(
        "contact_on_anticoagulant",
        "Contact bleeding with a known risk",
        "the person who looks after the blood thinner or the blood, by telephone",
        "Ask about its control; look for dilated veins; clean gently. Once reported and unchanged "
        "it is known: record it. No wider opening for it, no visit.",
        (DESIGN,),
        contact,
        "Your stoma bled when it was wiped. Call the team that gives you blood thinners today.",
    ),
    FlagRule(
        "bleed_stopped",
        "A heavier bleed that has stopped",
        "physician",
        "Haemoglobin. What to do if it starts again is written down.",
        (DESIGN,),
        bleed_stopped,
        "Your stoma bled a lot not long ago. A doctor must look today.",
        adult_figures=True,
    ),
)
