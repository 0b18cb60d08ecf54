"""Red flags of infection at the stoma: cellulitis, abscess, necrotising infection."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import EDGE_PASSED, HOURS_TO_SPREAD, PAIN_STRONG, PULSE_INFECTED
from planning.facts.derive import Facts, Seen
from planning.facts.in_words import joined
from planning.inputs.findings import SkinKind, Symptom
from planning.results.plan import Urgency
from planning.safety.flag import FlagRule, Verdict
from planning.safety.signs import fever, not_measured, pulse_over, weak_defences

_ILL: Final = (Symptom.RIGORS, Symptom.CONFUSION, Symptom.FAINTNESS, Symptom.LOOKS_ILL)


def _ill(facts: Facts) -> bool:
    """Fever, a fast pulse, rigors, confusion, faint or looking ill."""
    return facts.feels(*_ILL) or bool(fever(facts) or pulse_over(PULSE_INFECTED, facts))


def _spread_within(seen: Seen, hours: float) -> bool:
    spread = seen.finding.hours_to_spread
    return spread is not None and spread <= hours


def infection(facts: Facts) -> Verdict | None:
    seen = facts.find(SkinKind.SPREADING_WARMTH)
    if not seen:
        return None
    past_its_mark = any(_spread_within(s, EDGE_PASSED.value) for s in seen)
    if _ill(facts) or past_its_mark:
        found = "Spreading, warm, tender redness, with illness or quickly past its mark."
        return Verdict(Urgency.EMERGENCY, found, seen[0].path)
    ask = joined(not_measured(facts))
    return Verdict(Urgency.SAME_DAY, "Spreading, warm, tender redness.", seen[0].path, ask)


def abscess(facts: Facts) -> Verdict | None:
    seen = facts.find(SkinKind.ABSCESS)
    if not seen:
        return None
    if _ill(facts) or weak_defences(facts):
        found = "An abscess in somebody unwell or with weak defences, a biologic included."
        return Verdict(Urgency.EMERGENCY, found, seen[0].path)
    ask = joined([*not_measured(facts), "what weakens the defences"])
    return Verdict(Urgency.SAME_DAY, "An abscess: a painful soft lump, or pus.", seen[0].path, ask)


def necrotising(facts: Facts) -> Verdict | None:
    """Spread in hours with strong pain by itself; crackling, numb or grey-purple skin with fever or
    a fast pulse. Spread in days is more like pyoderma."""
    strong = (facts.findings.output.pain_0_10 or 0) >= PAIN_STRONG.value
    fast = [s for s in facts.seen if _spread_within(s, HOURS_TO_SPREAD.value)]
    if fast and strong:
        found = "Strong pain, and skin that changed within hours."
        return Verdict(Urgency.EMERGENCY, found, fast[0].path)
    dead = [s for s in facts.seen if s.finding.numb_or_crackling]
    if not dead:
        return None
    found = "Numb, crackling or grey-purple skin."
    if _ill(facts):
        return Verdict(Urgency.EMERGENCY, found, dead[0].path)
    return Verdict(Urgency.SAME_DAY, found, dead[0].path, joined(not_measured(facts)))


def pustules(facts: Facts) -> Verdict | None:
    seen = facts.find(SkinKind.HAIR_PUSTULES)
    if not seen or not fever(facts):
        return None
    return Verdict(Urgency.SAME_DAY, "Pustules with fever.", seen[0].path)


RULES: Final = (
    FlagRule(
        "necrotising",
        "Possible necrotising infection",
        "surgeon",
        "Take belt and wide tape off, so that the edge can be seen; mark it with the time. Say "
        "diabetes, cancer and weight. No dressing and waiting.",
        ("fasciitis2016/who", MEMORY, DESIGN),
        necrotising,
        "The skin may be infected. A doctor must look now.",
        told_at={Urgency.SAME_DAY: "The skin may be infected. A doctor must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "abscess",
        "Abscess beside the stoma",
        "surgeon",
        "Mark the edge of the redness with the time. Soft and flat over it without pressure (no "
        "belt, no convexity), nothing sealed. "
        "Do not squeeze or lance. Say what weakens the defences; think of a fistula.",
        (PRACTICE, DESIGN),
        abscess,
        "You may have an abscess. A surgeon must look now.",
        within=("necrotising",),
        told_at={Urgency.SAME_DAY: "You may have an abscess. A surgeon must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "infection",
        "Infection of the skin",
        "prescriber",
        "Mark the edge with date and time; pouch without pressure.",
        ("hightech/cellulitis", PRACTICE),
        infection,
        "The skin may be infected. A doctor must look now.",
        told_at={Urgency.SAME_DAY: "The skin may be infected. A doctor must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "infected_hairs",
        "Spreading pustules with fever",
        "prescriber",
        "Swab, gentle wash, no shaving.",
        (PRACTICE,),
        pustules,
        "The skin may be infected. A doctor must look today.",
        adult_figures=True,
    ),
)
