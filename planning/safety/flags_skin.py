"""Red flags of the skin round the stoma."""

from __future__ import annotations

from typing import Final

from planning.causes.products import contact_findings
from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import LEAKS_A_DAY, PYODERMA_PAIN, RAW_WIDE
from planning.facts.derive import BROKEN, Facts, Seen
from planning.inputs.findings import Accessory, Condition, RemovalReason, SkinKind, Symptom
from planning.results.plan import Urgency
from planning.safety.flag import NURSE, FlagRule, Verdict
from planning.safety.pain import pain_at

#: Signs that a reaction of the skin is more than one of the skin.
_UNWELL: Final = (
    Symptom.FEVER,
    Symptom.CONFUSION,
    Symptom.FAINTNESS,
    Symptom.FACE_SWELLING_OR_WHEEZE,
)


def _first(seen: tuple[Seen, ...]) -> str:
    return seen[0].path


def _pyoderma(facts: Facts) -> Verdict | None:
    undermined, ulcers = facts.find(SkinKind.UNDERMINED_ULCER), facts.find(SkinKind.ULCER)
    prompted = facts.has(Condition.INFLAMMATORY_BOWEL_DISEASE) or any(
        (pain_at(s, facts) or 0) >= PYODERMA_PAIN.value for s in ulcers
    )
    seen = undermined or (ulcers if prompted else ())
    if not seen:
        return None
    growing = any(s.finding.enlarging for s in undermined + ulcers)
    found = (
        "An ulcer with a violet, undermined edge."
        if undermined
        else "An ulcer with bowel disease or pain of 7 or more."
    )
    return Verdict(Urgency.SAME_DAY if growing else Urgency.DAYS, found, _first(seen))


def _ulcer(facts: Facts) -> Verdict | None:
    seen = facts.find(SkinKind.ULCER)
    if not seen:
        return None
    nothing_presses = facts.wears_convex is False and facts.wears(Accessory.BELT) is False
    if nothing_presses:
        return Verdict(Urgency.DAYS, "There is an ulcer beside the stoma.", _first(seen))
    found = "There is an ulcer under convexity or belt, or what presses was not recorded."
    return Verdict(Urgency.SAME_DAY, found, _first(seen))


def _raw(facts: Facts) -> Verdict | None:
    wide = [s for s in facts.find(*BROKEN) if _across(s) > RAW_WIDE.value and not _closed(s)]
    if not wide:
        return None
    return Verdict(Urgency.DAYS, f"Raw skin is {_across(wide[0]):.0f} mm wide.", wide[0].path)


def _closed(seen: Seen) -> bool:
    """Blisters or papules known to be dry: the reaction has a level of its own."""
    return seen.finding.kind is SkinKind.BLISTERS and seen.finding.moist is False


def _across(seen: Seen) -> float:
    """Width of the damage from the stoma outwards, mm; 0 where its extent was not recorded."""
    inner, outer = seen.finding.inner_mm, seen.finding.outer_mm
    return 0.0 if inner is None or outer is None else outer - inner


def _leaks_daily(facts: Facts) -> Verdict | None:
    ended = [e for e in facts.findings.wear or () if e.reason is not None]
    days = sum(e.days for e in ended)
    leaks = sum(e.reason in (RemovalReason.LEAK, RemovalReason.FELL_OFF) for e in ended)
    if leaks < LEAKS_A_DAY.value or leaks < LEAKS_A_DAY.value * days:
        return None
    return Verdict(Urgency.DAYS, "The system leaks twice a day or more.", "wear")


def _blistering(facts: Facts) -> Verdict | None:
    """Today what spreads, or blisters in someone unwell. Inside one product's outline weeping
    blisters wait some days and small dry ones two weeks; with the outline not recorded each is one
    step sooner. Blisters and papules are one kind: whether they weep not recorded counts as yes."""
    touching = contact_findings(facts)
    spreading = [s for s in touching if s.finding.enlarging]
    if spreading:
        found = "A reaction to a product spreads."
        return Verdict(Urgency.SAME_DAY, found, spreading[0].path)
    blisters = [s for s in touching if s.finding.kind is SkinKind.BLISTERS]
    if not blisters:
        return None
    if facts.feels(*_UNWELL):
        found = "A reaction to a product blisters, and the person is unwell."
        return Verdict(Urgency.SAME_DAY, found, blisters[0].path)
    return min((_blisters(s) for s in blisters), key=lambda verdict: verdict.urgency.rank)


def _blisters(seen: Seen) -> Verdict:
    found = seen.finding
    weeps = found.moist is not False
    words = "Weeping blisters" if weeps else "Dry papules or closed blisters"
    if weeps and found.moist is None:
        words = "Blisters or papules (whether they weep was not recorded: taken as weeping)"
    if found.product_outline:
        urgency = Urgency.DAYS if weeps else Urgency.TWO_WEEKS
        return Verdict(urgency, f"{words} inside the outline of a product.", seen.path)
    urgency = Urgency.SAME_DAY if weeps else Urgency.DAYS
    where = "where a product lies; whether they keep to its outline was not recorded"
    return Verdict(urgency, f"{words} {where}.", seen.path)


def _radiation(facts: Facts) -> Verdict | None:
    wet = tuple(s for s in facts.find(SkinKind.EROSION, SkinKind.STRIPPING) if s.finding.moist)
    if not wet or not facts.has(Condition.RADIOTHERAPY_ABDOMEN):
        return None
    return Verdict(Urgency.DAYS, "Moist peeling in a field of radiotherapy.", _first(wet))


RULES: Final = (
    FlagRule(
        "pyoderma",
        "Pyoderma gangrenosum must be thought of",
        "dermatology and gastroenterology",
        "No debridement, no firm convexity, no belt; soft flat barrier and a pain plan.",
        ("sheldon2000/debridement", "cairns1994/fast", MEMORY),
        _pyoderma,
        "You have a sore that needs a skin doctor soon.",
        adult_figures=True,
    ),
    FlagRule(
        "pressure_ulcer",
        "Ulcer under the system",
        NURSE,
        "Take off what presses: convexity and belt.",
        ("urostomy2014/belt_sore", DESIGN),
        _ulcer,
        "You have a deep sore. Take off the belt. The team must look at it.",
    ),
    FlagRule(
        "blistering",
        "Reaction to a product with blisters or papules, or spreading",
        "prescriber",
        "Take the suspected product away.",
        (PRACTICE, DESIGN),
        _blistering,
        "Your skin reacts badly to a product. A doctor must look at it.",
    ),
    FlagRule(
        "radiation",
        "Moist peeling after radiotherapy",
        "oncology team",
        "Soft flat barrier, as few changes as the seal allows, gentle removal. No convexity, belt, "
        "firm plate or tape.",
        (MEMORY, PRACTICE),
        _radiation,
    ),
    FlagRule(
        "raw_skin",
        "Large raw area",
        NURSE,
        "Refit within days.",
        (DESIGN,),
        _raw,
        within=("pressure_ulcer",),
        adult_figures=True,
    ),
    FlagRule(
        "leaks_daily",
        "Several leaks a day",
        NURSE,
        "Refit within days.",
        (DESIGN,),
        _leaks_daily,
        adult_figures=True,
    ),
)
