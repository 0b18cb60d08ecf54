"""Red flags of growth: a lump, warty skin that stays, a dark spot."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY
from planning.evidence.thresholds import SPOT_WIDE, WARTY_DAYS
from planning.facts.derive import Facts, Seen
from planning.inputs.findings import BaselineKind, SkinKind
from planning.results.plan import Urgency
from planning.safety.baselines import as_known
from planning.safety.flag import FlagRule, Verdict


def lump(facts: Facts) -> Verdict | None:
    """Hard, growing, or changed since it was last seen."""
    changed = tuple(s for s in facts.find(SkinKind.GRANULOMA, SkinKind.WARTY) if _grows(s))
    seen = facts.find(SkinKind.HARD_LUMP) + changed
    if not seen:
        return None
    return Verdict(Urgency.TWO_WEEKS, "A hard or growing lump at the stoma.", seen[0].path)


def _grows(seen: Seen) -> bool:
    return bool(seen.finding.enlarging or seen.finding.changing)


def warty_stays(facts: Facts) -> Verdict | None:
    """Warty skin that has not flattened weeks after it was first seen, unless agreed as known."""
    seen = facts.find(SkinKind.WARTY)
    if not seen or as_known(facts, BaselineKind.THICK_SKIN):
        return None
    today = facts.findings.stoma.days_since_surgery
    for visit in facts.history.previous:
        then = visit.stoma.days_since_surgery
        long_ago = today is not None and then is not None and today - then >= WARTY_DAYS.value
        if long_ago and any(f.kind is SkinKind.WARTY for f in visit.skin or ()):
            return Verdict(Urgency.TWO_WEEKS, "Warty skin has not flattened.", seen[0].path)
    return None


def dark_spot(facts: Facts) -> Verdict | None:
    """Whether it changes not recorded counts as changing; its size not recorded as large."""
    for seen in facts.find(SkinKind.PIGMENTED_SPOT):
        across = seen.finding.across_mm
        small = across is not None and across <= SPOT_WIDE.value
        if seen.finding.changing is not False or not small:
            found = "A dark spot that is new, changing or large, or not recorded as otherwise."
            return Verdict(Urgency.TWO_WEEKS, found, seen.path)
    return None


RULES: Final = (
    FlagRule(
        "lump",
        "New growth at the stoma",
        "surgeon, for a biopsy",
        "Record size and photo, and loss of weight. No silver nitrate, no convexity.",
        ("stomacancer2015/biopsy", MEMORY),
        lump,
        "There is a lump that a surgeon must look at within two weeks.",
    ),
    FlagRule(
        "warty_stays",
        "Warty skin that does not flatten",
        "surgeon, for a biopsy",
        "Record size and photo. Flat, and nothing that rubs.",
        ("stomacancer2015/biopsy", DESIGN),
        warty_stays,
        "There is a lump that a surgeon must look at within two weeks.",
        within=("lump",),
        adult_figures=True,
    ),
    FlagRule(
        "dark_spot",
        "Dark spot in the skin",
        "dermatologist, for suspected skin cancer",
        "Photo with a scale; gentle removal over it. Nothing is frozen, scraped or watched.",
        (DESIGN,),
        dark_spot,
        "There is a dark spot that a skin doctor must look at within two weeks.",
        adult_figures=True,
    ),
)
