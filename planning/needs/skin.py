"""Needs of the skin: absorb, protect, treat, remove gently, keep a product off."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import MEMORY, PRACTICE
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Material, SkinKind
from planning.ranked_facts import RankedFacts
from planning.results.plan import Need, Reason

#: Causes that call for gentle removal, what they are, and whose word that is.
_GENTLE: Final = (
    ("stripping", "injury of the skin by adhesive", "leblanc2019/look"),
    ("folliculitis", "inflamed hair roots, pulled on removal", "folliculitis/look"),
    ("varices", "varices, which bleed on rubbing", MEMORY),
    ("pyoderma", "pyoderma, which any injury can bring on", "hughes2000/injury"),
    ("radiation", "irradiated skin, which tears", MEMORY),
    ("dermatosis", "psoriasis or eczema, which injury provokes", MEMORY),
)
#: Of these, the causes that gentle hands serve too: they start no product while another is
#: suspected and nothing else may change.
_WAITS: Final = frozenset({"stripping", "folliculitis", "dermatosis"})


def skin_needs(situation: RankedFacts) -> Iterator[Need]:
    """All needs of the skin that these findings make."""
    yield from _wet(situation)
    yield from _yeast(situation)
    yield from _wound(situation)
    yield from _fragile(situation)
    yield from _reaction(situation)


def _wet(situation: RankedFacts) -> Iterator[Need]:
    weeping = situation.facts.weeping
    if not weeping:
        return
    hours = ClockHours.union(s.finding.hours for s in weeping)
    reason = Reason(
        f"The skin is raw or weeping{hours.placed()}; a barrier does not hold on wet skin.",
        ("crusting/wet_only", PRACTICE),
        weeping[0].path,
    )
    thin = Reason(
        "Trial support for powder and film is weak: they help the barrier hold but stop no leak.",
        ("germansky2017/variants", "caretrials2014/weak"),
    )
    yield Need("absorb_moisture", "Dry the weeping skin", (reason, thin), hours=hours)
    yield Need("protect_skin", "Seal the powdered skin", (reason,), hours=hours)


def _yeast(situation: RankedFacts) -> Iterator[Need]:
    if not situation.likely("yeast"):
        return
    seen = situation.facts.find(SkinKind.SATELLITES)
    hours = ClockHours.union(s.finding.hours for s in seen)
    reason = Reason("Satellite spots suggest yeast.", ("hightech/satellites",), seen[0].path)
    yield Need("treat_yeast", "Treat the yeast", (reason,), hours=hours)


def _wound(situation: RankedFacts) -> Iterator[Need]:
    facts = situation.facts
    ulcers = facts.find(SkinKind.ULCER, SkinKind.UNDERMINED_ULCER)
    reasons = []
    if facts.separated:
        reasons.append(Reason("Mucocutaneous separation.", (MEMORY,), "measurement.junction"))
    if ulcers:
        reasons.append(Reason("There is an ulcer.", ("swedish/dressing",), ulcers[0].path))
    if reasons:
        yield Need("absorb_wound", "Fill and cover the wound", tuple(reasons))


def _fragile(situation: RankedFacts) -> Iterator[Need]:
    found = [row for row in _GENTLE if situation.likely(row[0])]
    reasons = tuple(
        Reason(f"{situation.possible(key)}: {what}.", (source,), "skin")
        for key, what, source in found
    )
    if any(situation.suspected is None or key not in _WAITS for key, _, _ in found):
        yield Need("gentle_removal", "Take the barrier off without pulling", reasons)


def _reaction(situation: RankedFacts) -> Iterator[Need]:
    facts = situation.facts
    if facts.reacts_to(Material.BARRIER_ADHESIVE):
        reason = Reason(
            "The person reacts to a barrier adhesive.", (PRACTICE,), "person.sensitivities"
        )
        yield Need("other_adhesive", "A barrier of another material", (reason,))
    elif situation.suspected is Material.BARRIER_ADHESIVE:
        reason = Reason(
            "The skin reacts where the barrier lies.", ("hightech/outline", PRACTICE), "skin"
        )
        yield Need("other_adhesive", "A barrier of another material", (reason,))
