"""One recommendation for every supply kept, started, changed or stopped."""

from __future__ import annotations

from collections.abc import Iterator

from planning.evidence.sources import PRACTICE
from planning.recommendations import supply_words
from planning.results.message import Message, to_patient
from planning.results.plan import Change, ItemKind, Reason, Recommendation, Stage
from planning.supplies.catalogue import SUPPLIES, Slot, Supply
from planning.supplies.changed_parts import BARRIER, OPENING, part_names
from planning.supplies.opening_size import Verdict
from planning.supplies.system_choice import SystemChoice

_OPENING_KINDS = frozenset(s.key for s in SUPPLIES.values() if s.slot is Slot.OPENING)
_IN_USE = Reason("It is in use and there is nothing against it.", (PRACTICE,), "system")
#: Worn because the clinician says so.
_DECIDED = Reason("The clinician chose it instead of what was proposed.", (PRACTICE,))
#: The only supply ever started without a need of its own.
_SEALS = Reason(
    "Powder is sealed by film, or it comes off with the barrier.", ("crusting/layers", PRACTICE)
)


def supply_recommendations(chosen: SystemChoice) -> Iterator[Recommendation]:
    """Chosen supplies in the order of the catalogue, the opening, then what to stop."""
    for key in chosen.keys:
        if SUPPLIES[key].slot is not Slot.OPENING:
            yield _use(key, chosen)
    yield from _opening(chosen)
    yield from _stop(chosen)


def _use(key: str, chosen: SystemChoice) -> Recommendation:
    supply, needs = SUPPLIES[key], chosen.met_by(key)
    change = _change(supply, chosen)
    because = list(dict.fromkeys(reason for need in needs for reason in need.because))
    if needs:
        served = "; ".join(need.text for need in needs)
        because.append(Reason(f"Meets the need: {served.lower()}.", supply.sources))
    elif key not in chosen.fixed:
        because.append(_IN_USE if change is Change.KEEP else _SEALS)
    if key in chosen.fixed:
        because.append(_DECIDED)
    because += _replaced(supply, chosen)
    return Recommendation(
        key=key,
        kind=supply.kind,
        change=change,
        text=supply_words.clinician(key, chosen),
        because=tuple(because),
        need_keys=tuple(need.key for need in needs),
        patient_text=to_patient(supply_words.patient(key)),
        caution=supply_words.caution(key, chosen),
        stage=_stage(key, change, chosen),
    )


def _change(supply: Supply, chosen: SystemChoice) -> Change:
    there = chosen.worn.in_slot(supply.slot)
    if supply.key in there:
        return Change.KEEP
    return Change.CHANGE if there else Change.START


def _replaced(supply: Supply, chosen: SystemChoice) -> list[Reason]:
    """Why what was worn in this place may not stay."""
    old = chosen.worn.in_slot(supply.slot) - {supply.key}
    if supply.key in chosen.worn.keys:
        return []
    return list(dict.fromkeys(r for key in sorted(old) for r in chosen.barred.get(key, ())))


def _opening(chosen: SystemChoice) -> Iterator[Recommendation]:
    sizes = chosen.sizes
    if sizes.opening_length_mm is None:
        return
    change = _opening_change(chosen)
    needs = [n for n in chosen.needs if n.key in ("refit_opening", "no_cutting")]
    because = [reason for need in needs for reason in need.because]
    if OPENING in chosen.fixed or chosen.fixed & _OPENING_KINDS:
        because.append(_DECIDED)
    because.append(
        Reason(
            f"The opening leaves {sizes.gap_mm or 0:.1f} mm on every side of the stoma.",
            ("sizing2020/gap", "green2018/most"),
            "measurement.length_mm",
        )
    )
    yield Recommendation(
        key="opening",
        kind=ItemKind.OPENING,
        change=change,
        text=supply_words.opening_kept(chosen)
        if change is Change.KEEP
        else supply_words.opening(chosen),
        because=tuple(because),
        need_keys=tuple(need.key for need in needs),
        patient_text=to_patient(supply_words.opening_patient(chosen)),
        caution=supply_words.opening_caution(chosen),
        stage=_stage("opening", change, chosen),
    )


def _opening_change(chosen: SystemChoice) -> Change:
    slot = chosen.worn.in_slot(Slot.OPENING)
    kept = not slot or bool(slot & chosen.supplies)
    if chosen.opening.verdict is Verdict.UNKNOWN and (kept or not chosen.started("pre_cut")):
        # A size that was not recorded is checked, not changed; another kind is another opening.
        return Change.KEEP
    sized = chosen.opening.changes or OPENING in chosen.fixed
    refits = sized and {OPENING, BARRIER} & (chosen.corrections | chosen.today)
    return Change.KEEP if kept and not refits else Change.CHANGE


def _stage(key: str, change: Change, chosen: SystemChoice) -> Stage | None:
    """When it is done; None for what does not count as a change of what is worn."""
    slot = SUPPLIES[key].slot if key in SUPPLIES else Slot.OPENING
    if change is Change.KEEP:
        return Stage.KEEP
    names = part_names(slot)
    if names & chosen.corrections:
        return Stage.CORRECT_NOW
    return Stage.TODAY if names & chosen.today else None


def _stop(chosen: SystemChoice) -> Iterator[Recommendation]:
    """Supplies worn in a place that the plan leaves empty."""
    filled = {SUPPLIES[key].slot for key in chosen.supplies}
    for key in sorted(chosen.worn.others - chosen.supplies):
        supply = SUPPLIES[key]
        if supply.slot in filled:
            continue
        reasons = chosen.barred.get(key, ()) or (Reason("It is not needed.", (PRACTICE,)),)
        yield Recommendation(
            key=key,
            kind=supply.kind,
            change=Change.STOP,
            text=f"Stop: {supply.name}",
            because=reasons,
            patient_text=to_patient(
                Message.of("Stop using: {supply}.", supply=supply_words.patient(key))
            ),
            stage=_stage(key, Change.STOP, chosen),
        )
