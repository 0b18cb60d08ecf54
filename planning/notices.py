"""Things to know that change no supply by themselves."""

from __future__ import annotations

from collections.abc import Iterator

from planning.chosen import Chosen
from planning.derive import Facts
from planning.dimension import levelling
from planning.findings import (
    Bleeding,
    Colour,
    Condition,
    Consistency,
    Material,
    SkinKind,
    StomaKind,
    Symptom,
)
from planning.geometry.ring import fit_ring
from planning.plan import Quantity, Reason
from planning.situation import Situation
from planning.sources import DESIGN, MEMORY, PRACTICE
from planning.supplies.catalogue import SUPPLIES
from planning.thresholds import (
    BARRIER_ACROSS,
    GAP_MOST,
    GAP_RUBS,
    LEAK_RATE_AMBER,
    LEAK_RATE_RED,
    PROLAPSE_HEIGHT,
    PROLAPSE_RISE,
)

#: A barrier should reach this far beyond a ring (common practice).
_RIM_MM = 10.0


def notices(situation: Situation) -> tuple[Reason, ...]:
    """Notices from the findings alone."""
    facts = situation.facts
    parts = (_stoma(facts), _opening(facts), _person(facts), _skin(facts), _wear(facts))
    return tuple(notice for part in (*parts, _output(facts)) for notice in part)


def plan_notices(chosen: Chosen, quantities: tuple[Quantity, ...]) -> tuple[Reason, ...]:
    """Notices from the choice: limits of geometry, quantities, past harm."""
    parts = (
        _held_back(chosen),
        _geometry(chosen),
        _quantities(quantities),
        _antifungal(chosen),
    )
    return tuple(notice for part in parts for notice in part)


def _stoma(facts: Facts) -> Iterator[Reason]:
    m = facts.findings.measurement
    if m.protrusion_mm is not None and m.prolapse == ():
        if m.protrusion_mm > PROLAPSE_HEIGHT.value:
            yield Reason(
                "Higher than 50 mm: think of a prolapse (no agreed definition).",
                (DESIGN, "prolapsereview"),
                "measurement",
            )
        elif (rise := _rise(facts)) is not None and rise >= PROLAPSE_RISE.value:
            text = f"It stands {rise:.0f} mm higher than at the last visit: think of a prolapse."
            yield Reason(text, (DESIGN,), "measurement.protrusion_mm")
    if m.colour is Colour.YELLOW_SLOUGH:
        yield Reason(
            "Yellow slough: tissue is coming away; look at the depth.",
            (MEMORY,),
            "measurement.colour",
        )
    if m.bleeding is Bleeding.OOZE_AT_JUNCTION:
        yield Reason(
            "Oozing at the junction is usually venous: press, check what rubs and blood thinners.",
            ("barr2004",),
            "measurement.bleeding",
        )
    if facts.has(Condition.ANTICOAGULANT) and m.bleeding not in (None, Bleeding.NONE):
        yield Reason("Blood thinners: bleeding lasts longer.", (PRACTICE,), "person.has")


def _rise(facts: Facts) -> float | None:
    now = facts.findings.measurement.protrusion_mm
    if not facts.history.previous or now is None:
        return None
    before = facts.history.previous[-1].measurement.protrusion_mm
    return None if before is None else now - before


def _opening(facts: Facts) -> Iterator[Reason]:
    gap = facts.worn_gap
    if gap is None:
        return
    at = "system.opening_length_mm"
    if gap.least_mm < 0:
        yield Reason(
            "The opening in use is smaller than the stoma: its edge may cut.", (PRACTICE,), at
        )
    elif gap.least_mm < GAP_RUBS.value and not facts.mouldable:
        yield Reason(
            f"The opening in use comes within {gap.least_mm:.1f} mm of the stoma: a plain cut edge "
            "nearer than 1 mm may rub.",
            (PRACTICE,),
            at,
        )
    if gap.most_mm > GAP_MOST.value:
        bare = f"The opening in use leaves {gap.most_mm:.1f} mm bare on a side, over the usual "
        bare += f"{GAP_MOST.value:.1f} mm"
        known_sound = ": the skin there is sound, so it may stay; look at it at every change."
        yield Reason(bare + (known_sound if facts.works else "."), ("green2018", PRACTICE), at)


def _person(facts: Facts) -> Iterator[Reason]:
    if facts.has(Condition.LIVER_DISEASE):
        yield Reason(
            "Liver disease: look for varices at every visit, even with normal skin.",
            ("varicesreview", "strauss2014"),
            "person.has",
        )
    known = facts.findings.person.sensitivities or frozenset()
    if Material.ALCOHOL in known:
        yield Reason(
            "Reacts to alcohol: alcohol-free film, paste and remover only.",
            (PRACTICE,),
            "person.sensitivities",
        )
    if Material.TAPE in known:
        yield Reason(
            "Reacts to tape: barriers without a tape border.", (PRACTICE,), "person.sensitivities"
        )
    if Material.OTHER in known:
        yield Reason(
            "Another sensitivity is recorded: check it against every product.",
            (PRACTICE,),
            "person.sensitivities",
        )


def _skin(facts: Facts) -> Iterator[Reason]:
    ends = [s.finding.outer_mm or 0.0 for s in facts.seen]
    if facts.outline is not None and ends:
        reach = BARRIER_ACROSS.value / 2 - facts.outline.across_mm / 2
        if max(ends) > reach:
            yield Reason(
                "Damaged skin reaches beyond a usual barrier: its rim lies on sore skin; "
                "take a larger one or a smaller one inside it.",
                (DESIGN,),
                "skin",
            )
    if facts.broken_skin:
        yield Reason("Broken skin: nothing with alcohol.", ("accessories", PRACTICE), "skin")
    if facts.find(SkinKind.WARTY):
        yield Reason(
            "No film over thick wet warty skin; do not cut or abrade it.", (MEMORY,), "skin"
        )


def _wear(facts: Facts) -> Iterator[Reason]:
    wear = facts.wear
    if wear is None:
        return
    if wear.left_out:
        yield Reason(
            "A wear time of more than 14 days looks like a slip of the pen and is left out.",
            (DESIGN,),
            "wear",
        )
    rate = wear.leak_rate
    if rate is not None and rate >= LEAK_RATE_AMBER.value:
        source = LEAK_RATE_RED.source if rate >= LEAK_RATE_RED.value else DESIGN
        yield Reason(
            f"{wear.leaks} of {wear.changes} barriers leaked or fell off.", (source,), "wear"
        )


def _output(facts: Facts) -> Iterator[Reason]:
    output = facts.findings.output
    urine = facts.kind is StomaKind.UROSTOMY
    if urine is not (output.consistency is Consistency.URINE) and output.consistency is not None:
        yield Reason(
            "Output and kind of stoma do not fit: stool and urine may be mixing.",
            (PRACTICE,),
            "output.consistency",
        )
    if not urine and facts.feels(Symptom.FEVER):
        yield Reason("Fever: look for its source.", (PRACTICE,), "output.present")


def _held_back(chosen: Chosen) -> Iterator[Reason]:
    for key in sorted(chosen.held_back):
        text = f"Held back by a safety rule: {SUPPLIES[key].name}. Tell whoever keeps the rules."
        yield Reason(text, (PRACTICE,))


def _geometry(chosen: Chosen) -> Iterator[Reason]:
    facts, sizes = chosen.situation.facts, chosen.sizes
    if "ring" in chosen.supplies and facts.outline is not None:
        ring = fit_ring(facts.outline)
        if ring.outer_mm > BARRIER_ACROSS.value - 2 * _RIM_MM:
            yield Reason(
                "The stretched ring comes within 10 mm of a usual barrier's rim: take a "
                "larger barrier.",
                (PRACTICE,),
                "measurement.length_mm",
            )
    if sizes.opening_length_mm is not None:
        longest = max(sizes.opening_length_mm, sizes.opening_width_mm or 0.0)
        if longest > BARRIER_ACROSS.value - 2 * _RIM_MM:
            yield Reason(
                "The opening leaves less than 10 mm of a usual barrier: take a larger one.",
                (PRACTICE,),
                "measurement.length_mm",
            )
    fill = levelling(facts) if "half_ring" in chosen.supplies else None
    if fill is not None and fill.too_high:
        yield Reason(
            f"The step of {fill.gap_mm:.0f} mm is more than half rings level.",
            (DESIGN,),
            "abdomen.bulges",
        )


def _quantities(quantities: tuple[Quantity, ...]) -> Iterator[Reason]:
    for line in quantities:
        if line.over_maximum:
            yield Reason(
                f"{line.text}: {line.per_month} a month is over the usual maximum of "
                f"{line.usual_monthly_maximum:g}; write the reason into the record.",
                ("lcd",),
            )


def _antifungal(chosen: Chosen) -> Iterator[Reason]:
    if "antifungal_powder" in chosen.supplies and not chosen.situation.likely("yeast"):
        yield Reason(
            "Antifungal powder is in use without signs of yeast today: the prescriber "
            "decides whether to stop it.",
            (PRACTICE,),
            "system.accessories",
        )
