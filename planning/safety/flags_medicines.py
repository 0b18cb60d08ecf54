"""Red flags of medicines already taken: each is named to its prescriber, none is stopped."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import OUTPUT_URGENT
from planning.facts.derive import Facts
from planning.inputs.findings import Medicine, SkinKind, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety import medicines
from planning.safety.drying import clear_signs, grave_signs
from planning.safety.flag import FlagRule, Verdict

_E, _S, _D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS
_AT: Final = "person.medicines"
#: Kidney and potassium.
_KIDNEY: Final = (Medicine.DIURETIC, Medicine.ACE_INHIBITOR_OR_ARB)
_ACID: Final = (Medicine.SGLT2_INHIBITOR, Medicine.METFORMIN, Medicine.NSAID)


def drug_with_losses(facts: Facts) -> Verdict | None:
    """Medicines that losses make dangerous, with much output, signs of dehydration or vomiting."""
    volume = facts.findings.output.volume_ml_24h
    bowel = facts.kind is not StomaKind.UROSTOMY
    much = bowel and volume is not None and volume >= OUTPUT_URGENT.value
    dry = bool(grave_signs(facts) or clear_signs(facts))
    sick = facts.feels(Symptom.VOMITING)
    concerned = (*(_KIDNEY if much or dry else ()), *(_ACID if much or dry or sick else ()))
    found = medicines.named(facts, concerned)
    if not found:
        return None
    return Verdict(_S, f"Losses while {found} is taken.", _AT)


def laxative_with_ileostomy(facts: Facts) -> Verdict | None:
    """A laxative is never for an ileostomy; a magnesium antacid loosens."""
    found = medicines.named(facts, (Medicine.LAXATIVE, Medicine.MAGNESIUM_ANTACID))
    if not facts.small_bowel or not found:
        return None
    return Verdict(_D, f"{found[:1].upper()}{found[1:]} with an ileostomy.", _AT)


def tablets_whole(facts: Facts) -> Verdict | None:
    """Tablets that come out whole were not taken up. A steroid among them, and faint, vomiting or
    very weak: an emergency."""
    if not facts.findings.output.tablets_whole:
        return None
    ill = facts.feels(Symptom.FAINTNESS, Symptom.VOMITING, Symptom.LIMB_WEAKNESS)
    steroid = facts.findings.person.takes(Medicine.STEROID)
    listed = medicines.named(facts, (Medicine.COATED_OR_SLOW_RELEASE, Medicine.STEROID,
                                     Medicine.NARROW_RANGE))  # fmt: skip
    level = _D
    if ill and steroid is not False:
        level = _E if steroid else _S
    steroid_words = "" if steroid is False else (
        "A steroid not taken up: an emergency if faint, vomiting or very weak."
    )  # fmt: skip
    return Verdict(
        level,
        "Whole tablets in the pouch" + (f"; {listed} on the list." if listed else "."),
        "output.tablets_whole",
        ask="is a steroid taken" if steroid is None else "",
        also=steroid_words,
        refer_to="emergency department" if level is _E else "",
    )


def nicorandil(facts: Facts) -> Verdict | None:
    """Any ulcer at the stoma while nicorandil is taken; before or beside pyoderma."""
    if not medicines.ulcer_seen(facts) or not facts.findings.person.takes(Medicine.NICORANDIL):
        return None
    seen = facts.find(SkinKind.ULCER, SkinKind.UNDERMINED_ULCER)
    return Verdict(_D, "An ulcer, and nicorandil is taken.", seen[0].path)


RULES: Final = (
    FlagRule(
        "drug_with_losses",
        "Medicine that losses make dangerous",
        "prescriber",
        "Creatinine and potassium; with an SGLT2 inhibitor ketones, even with a normal sugar. The "
        "prescriber decides and writes down what to do on sick days.",
        ("aceileostomy2018/readmitted", "acediuretics2024/hazard", MEMORY, PRACTICE),
        drug_with_losses,
        "A doctor must look at your medicines today. Do not stop any by yourself.",
        adult_figures=True,
    ),
    FlagRule(
        "laxative_with_ileostomy",
        "Laxative or magnesium antacid with an ileostomy",
        "prescriber",
        "Ask who advised it and since when. A blockage is thought of first.",
        ("ileostomymedicines/laxatives", PRACTICE),
        laxative_with_ileostomy,
        "A doctor must look at your medicines within days. Do not stop any by yourself.",
    ),
    FlagRule(
        "tablets_whole",
        "Tablets that come out whole",
        "prescriber and pharmacist",
        "Review of form and route; keep a tablet to show. No crushing, splitting, swapping or "
        "stopping without them.",
        ("ileostomymedicines/coated", MEMORY, DESIGN),
        tablets_whole,
        "Your tablets may not work. The pharmacist will look within days. Keep a tablet that came "
        "out whole, to show it. Do not stop any tablet by yourself.",
        told_at={
            _E: "Your tablets may not work. A doctor must look now.",
            _S: "Your tablets may not work. A doctor must look today.",
        },
    ),
    FlagRule(
        "nicorandil",
        "Ulcer under nicorandil",
        "prescriber or cardiologist",
        "Name nicorandil as a possible cause, before or beside pyoderma; ask for ulcers of mouth "
        "and anus. Never stopped alone.",
        ("nicorandil2012/ulcers", PRACTICE),
        nicorandil,
        "A doctor must look at your medicines within days. Do not stop any by yourself.",
    ),
)
