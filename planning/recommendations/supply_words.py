"""The two voices: exact for the clinician, plain for the sheet."""

from __future__ import annotations

from planning.facts.derive import still_shrinks
from planning.geometry.precut import inches
from planning.inputs.findings import Condition
from planning.results.message import SUPPLY, Message
from planning.supplies.catalogue import CONVEX, FLAT, PRESSES, SUPPLIES
from planning.supplies.opening_size import Verdict
from planning.supplies.system_choice import SystemChoice


def clinician(key: str, chosen: SystemChoice) -> str:
    """Supply with its sizes."""
    name = SUPPLIES[key].name
    sizes = chosen.sizes
    text = name[:1].upper() + name[1:]
    if key in CONVEX:
        text += _dome(chosen)
    elif key == "ring":
        text += _ring(chosen)
    elif key == "half_ring":
        text += _half_ring(chosen)
    elif key == "strip":
        text += _where(chosen, "fill_crease")
    elif key == "paste" and sizes.paste_mm:
        text += f", {sizes.paste_mm:.1f} mm deep, to level what the half rings leave"
    elif key == "powder":
        where = _where(chosen, "absorb_moisture")
        text += f",{where}" if where else ""
    return text


def _dome(chosen: SystemChoice) -> str:
    sizes = chosen.sizes
    parts = []
    if sizes.convex_depth_mm is not None:
        parts.append(f"about {sizes.convex_depth_mm:.0f} mm deep")
    if sizes.plateau_mm is not None:
        parts.append(f"flat plateau at least {sizes.plateau_mm:.0f} mm across")
    return " (" + ", ".join(parts) + ")" if parts else ""


def _ring(chosen: SystemChoice) -> str:
    sizes = chosen.sizes
    if sizes.ring_stretched_inner_mm is None or sizes.ring_stretched_thickness_mm is None:
        return ", touching the stoma all round"
    if sizes.ring_cut_and_overlap:
        return (
            f", cut and closed round the stoma ({sizes.ring_stretched_inner_mm:.0f} mm), ends "
            "overlapping 5 to 10 mm away from 6 o'clock"
        )
    return (
        f", hole stretched to {sizes.ring_stretched_inner_mm:.0f} mm to touch the stoma all round "
        f"(about {sizes.ring_stretched_thickness_mm:.1f} mm thick then)"
    )


def _half_ring(chosen: SystemChoice) -> str:
    layers = chosen.sizes.half_ring_layers
    count = "" if layers is None else f", {layers} layer{'s' if layers > 1 else ''}"
    where = _where(chosen, "level_low_side") or _where(chosen, "raise_side")
    return where + count


def _where(chosen: SystemChoice, need_key: str) -> str:
    need = next((n for n in chosen.needs if n.key == need_key), None)
    return need.hours.placed() if need is not None else ""


def patient(key: str) -> Message:
    """As the patient reads it."""
    return Message(SUPPLIES[key].patient_name, SUPPLY)


def caution(key: str, chosen: SystemChoice) -> str | None:
    """What to watch with this supply."""
    parts = (_watch(key, chosen), _veins_unknown(key, chosen))
    return " ".join(part for part in parts if part) or None


def _veins_unknown(key: str, chosen: SystemChoice) -> str | None:
    """What presses is not started on the quiet where varices cannot be excluded."""
    unknown = chosen.situation.facts.has(Condition.LIVER_DISEASE) is None
    if not unknown or key not in PRESSES or not chosen.started(key):
        return None
    return (
        "Liver disease is not recorded: ask, and look for varices, before this is put on. With "
        "either, no convexity, no rigid plate and no belt."
    )


def _watch(key: str, chosen: SystemChoice) -> str | None:
    if key in CONVEX:
        text = "Look at the skin at the first change and within 7 days: the imprint must fade."
        if key not in chosen.worn.keys or chosen.worn.barrier_certain:
            return text
        return text + " The convexity in use was not fully recorded: keep it only if it is this."
    if key in FLAT and not chosen.worn.barrier_certain and key in chosen.worn.keys:
        text = "Whether the flat barrier in use is flexible or firm was not recorded."
        why = chosen.barred.get("flat_firm", ())
        return " ".join(
            (text, *(["Do not keep a firm one."] if why else ()), *(r.text for r in why))
        )
    cautions = {
        "belt": "Level with the stoma, two fingers fit under it. Take it off if it hurts or marks.",
        "powder": "Stop as soon as the skin is dry.",
        "antifungal_powder": "Only as long as the prescriber says.",
        "protectant": _dries(chosen),
        "support_garment": "Stop if it hurts, output stops or the stoma changes colour.",
        "thickener": "Never swallow it.",
        "absorbent_dressing": "Do not pack tightly.",
    }
    return cautions.get(key)


def _dries(chosen: SystemChoice) -> str:
    powder = {"powder", "antifungal_powder"} & chosen.supplies
    return "Let it dry fully." + (" At most three layers with powder." if powder else "")


# --- the opening ----------------------------------------------------------------------------
def opening(chosen: SystemChoice) -> str:
    """Size of the opening and how it comes about."""
    length = chosen.sizes.opening_length_mm or 0.0
    if "pre_cut" in chosen.supplies:
        return f"Pre-cut opening of {inches(length)} ({length:.1f} mm)"
    if "mouldable" in chosen.supplies:
        who = ", by a carer or nurse" if chosen.cut_by_helper else ""
        return (
            f"Roll the opening back to the edge of the stoma{who} ({_size(chosen)} before "
            "rolling in)"
        )
    if chosen.cut_by_helper:
        return f"{_who_cuts(chosen)}: opening of {_size(chosen)}, {_gap(chosen)}"
    if not chosen.sizes.opening_length_mm:
        return "Cut the opening to the size in use"
    return f"Cut the opening to {_size(chosen)}, {_gap(chosen)}"


def opening_kept(chosen: SystemChoice) -> str:
    """The opening in use fits."""
    if chosen.opening.verdict is Verdict.UNKNOWN:
        size = f"{_size(chosen)}, {_gap(chosen)}"
        return f"An opening of {size} fits; the one in use is not recorded: compare before cutting"
    fits = f"Keep the opening as it is ({_size(chosen)}, {_gap(chosen)})"
    if not chosen.cut_by_helper:
        return fits
    does = "rolls it" if "mouldable" in chosen.supplies else "cuts it"
    return f"{fits}; a carer or nurse {does} from the template"


def _who_cuts(chosen: SystemChoice) -> str:
    """While the stoma shrinks a stock cut ahead would soon be too large."""
    if still_shrinks(chosen.situation.facts):
        return "A carer or nurse measures and cuts at every change"
    return "A carer or nurse cuts a supply ahead from the template"


def _size(chosen: SystemChoice) -> str:
    length = chosen.sizes.opening_length_mm or 0.0
    width = chosen.sizes.opening_width_mm or 0.0
    return f"{length:.0f} mm" if abs(length - width) < 0.5 else f"{length:.0f} x {width:.0f} mm"


def _gap(chosen: SystemChoice) -> str:
    return f"{chosen.sizes.gap_mm or 0:.1f} mm beyond the stoma on every side"


def opening_patient(chosen: SystemChoice) -> str:
    """For the sheet."""
    if "pre_cut" in chosen.supplies:
        return "Use the barrier with the ready-cut hole. You need not cut it."
    if "mouldable" in chosen.supplies:
        if chosen.cut_by_helper:
            return "Let your helper roll the hole to fit close to your stoma."
        return "Roll the hole to fit close to your stoma."
    if chosen.cut_by_helper:
        if still_shrinks(chosen.situation.facts):
            return "Let your helper measure and cut the hole each time."
        return "Use the barriers with the hole cut for you. You need not cut."
    return "Cut the hole along the line of your template."


def opening_caution(chosen: SystemChoice) -> str | None:
    """Convexity: only the plateau may be cut."""
    plateau = chosen.sizes.plateau_mm
    if plateau is None:
        return None
    return (
        f"Cut only within the flat plateau: where it is narrower than {plateau:.0f} mm, take the "
        "next size; cutting into the slope takes its depth away. No list of plateau sizes is "
        "published: go by the largest cut printed on the barrier."
    )
