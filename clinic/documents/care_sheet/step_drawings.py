"""Which of our own small drawings (``static/drawings``) is beside a step of the sheet."""

from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.visits.choices import Presence

#: Step of the plan -> drawing. A step without one is clear from its words.
OF_STEP = {
    "peel": "peel",
    "clean": "clean",
    "vinegar": "clean",
    "wick": "wick",
    "dry": "dry",
    "dry_veins": "dry",
    "measure": "measure",
    "trim": "trim",
    "powder": "powder",
    "brush_off": "brush",
    "seal_powder": "film",
    "film": "film",
    "cut_opening": "cut",
    "cut_after_measuring": "cut",
    "strip": "strip",
    "half_ring": "half-ring",
    "ring": "ring",
    "paste": "paste",
    "apply": "apply",
    "hold_flat": "hold",
    "hold_plateau": "hold-plateau",
    "couple": "couple",
    "belt": "belt",
    "check_imprint": "imprint",
}


#: Context of the catalogue.
PICTURE = "picture"
#: What each drawing shows, for people who hear the sheet instead of seeing it.
SHOWS = {
    "peel": "A barrier rolled down from the top.",
    "clean": "A wet cloth goes round the stoma.",
    "wick": "A rolled cloth held on the stoma.",
    "dry": "A dry cloth pats the skin.",
    "measure": "The stoma measured long ways and across.",
    "trim": "Hair cut short with scissors.",
    "powder": "Powder falls on the sore skin.",
    "brush": "A soft brush sweeps off the powder.",
    "film": "A swab dabs film on the sore skin.",
    "cut": "Scissors cut a hole along a line.",
    "strip": "A dip in the skin filled up level.",
    "half-ring": "Half a ring beside the stoma.",
    "half-ring-bulge": "Half a ring on the side away from the bulge.",
    "ring": "A ring laid from the lowest point up both sides.",
    "ring-overlap": "A ring cut open. A piece is added and the ends overlap.",
    "paste": "A thin line of paste round the stoma.",
    "apply": "A barrier goes on, bottom edge first.",
    "hold": "A hand rests on the barrier.",
    "hold-plateau": "The middle of the dome pressed down.",
    "couple": "A pouch clicks on, bottom first.",
    "belt": "A belt level with the stoma, two fingers under it.",
    "imprint": "A red mark round the stoma, and a clock.",
}


def picture_of(step_key: str, decided: DecidedPlan) -> str:
    """The drawing's name, "" for none."""
    name = OF_STEP.get(step_key, "")
    if name == "ring" and decided.plan.dimensions.ring_cut_and_overlap:
        return "ring-overlap"
    if name == "half-ring" and _bulging(decided):
        return "half-ring-bulge"
    return name


def _bulging(decided: DecidedPlan) -> bool:
    abdomen = getattr(decided.assessment, "abdomen", None)
    return abdomen is not None and abdomen.bulge == Presence.PRESENT
