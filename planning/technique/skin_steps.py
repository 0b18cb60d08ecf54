"""From taking off the old system to skin that is ready for the new one."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.facts.derive import still_shrinks
from planning.inputs.findings import Condition, StomaKind, UrineSign
from planning.supplies.system_choice import SystemChoice
from planning.technique.rule import StepRule, When, carrying, uses


def _urine(chosen: SystemChoice) -> bool:
    return chosen.situation.facts.kind is StomaKind.UROSTOMY


def _lies_down(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    return bool(facts.prolapsed or facts.bulging)


def shrinks(chosen: SystemChoice) -> bool:
    """The stoma is measured at every change."""
    return still_shrinks(chosen.situation.facts)


def _veins(chosen: SystemChoice) -> bool:
    """Bleeding is then told apart in when to call, too."""
    return chosen.situation.likely("varices")


def _hairs(chosen: SystemChoice) -> bool:
    return chosen.situation.likely("folliculitis")


def _crystals(chosen: SystemChoice) -> bool:
    signs = chosen.situation.facts.findings.output.urine_signs or frozenset()
    return _urine(chosen) and UrineSign.CRYSTALS in signs and not water_only(chosen)


def water_only(chosen: SystemChoice) -> bool:
    """Nothing but water touches skin that is being irradiated."""
    return chosen.situation.facts.has(Condition.RADIOTHERAPY_NOW) is True


def _film_alone(chosen: SystemChoice) -> bool:
    powders = {"powder", "antifungal_powder"}
    return "protectant" in chosen.supplies and not powders & chosen.supplies


def _where_powder(chosen: SystemChoice) -> str:
    need = next((n for n in chosen.needs if n.key in ("absorb_moisture", "treat_yeast")), None)
    where = need.hours.placed() if need is not None else ""
    kind = "Antifungal powder" if "antifungal_powder" in chosen.supplies else "Plain powder"
    return f"{kind} thinly{where}, only on raw, wet skin; wait a few seconds until it clings."


#: Measured and cut before anything is put on the skin, which would dry or get wet until then.
_CUT: Final = ("measure", "cut_after_measuring", "helper_cuts")

RULES: Final = (
    StepRule(
        "quiet_time",
        "Choose a quiet time: before eating, or an hour or more after a meal.",
        "Pick a quiet time. Before a meal is best.",
        applies=When(lambda c: not _urine(c)),
        sources=("encyclopedia/quiet_time",),
    ),
    StepRule(
        "early_morning",
        "Early in the morning, before drinking: then the least urine comes.",
        "Early in the day, before you drink, is best.",
        applies=When(_urine),
    ),
    StepRule(
        "lay_out",
        "Wash hands and lay everything out.",
        "Wash your hands. Lay out what you need.",
        after=("quiet_time", "early_morning"),
    ),
    StepRule(
        "lie_down",
        "Change lying flat with the abdomen relaxed, so that prolapse or hernia is soft. A "
        "prolapse is reduced by trained hands only.",
        "Lie down flat and rest until your belly is soft. Do not push on the stoma.",
        after=("lay_out", "cut_opening", "empty"),
        applies=When(_lies_down),
        sources=("complicationsreview/lie_flat", PRACTICE),
    ),
    StepRule(
        "empty",
        "Empty the pouch.",
        "Empty the pouch.",
        after=("lay_out", "cut_opening"),
        applies=When(lambda c: "closed" not in c.supplies),
    ),
    StepRule(
        "remove_with_remover",
        "Loosen the top edge with silicone adhesive remover and roll it down with it.",
        "Wet the top edge with remover.",
        after=("empty", "lie_down"),
        applies=uses("adhesive_remover"),
        sources=("removers2013/silicone",),
    ),
    StepRule(
        "peel",
        "Support the skin and push it away from the barrier, from the top down; do not pull.",
        "Peel from the top down. Hold the skin with your other hand. Go slowly.",
        after=("empty", "lie_down", "remove_with_remover"),
        sources=("encyclopedia/peel", "peristomal/peel"),
    ),
    StepRule(
        "read_back",
        "Read the back of the barrier: where has it melted, where did effluent get under it?",
        "Look at the back of the barrier. Is one side eaten away or dirty?",
        after=("peel",),
        sources=("peristomal/read_back",),
    ),
    StepRule(
        "clean",
        "Clean with warm water; no oils, no wipes that leave a residue.",
        "Wash the skin with warm water. Use no oil and no baby wipes.",
        after=("read_back",),
        sources=("peristomal/clean",),
    ),
    StepRule(
        "vinegar",
        "Compress of equal parts white vinegar and water for a few minutes where crystals stick; "
        "rinse.",
        "Lay on a cloth wet with half white vinegar, half water. Wait a few minutes. Rinse.",
        after=("clean",),
        applies=When(_crystals),
        sources=("urostomy2014/crystals",),
    ),
    StepRule(
        "wick",
        "Hold a rolled gauze on the stoma while the skin dries.",
        "Hold a rolled cloth on the stoma while the skin dries.",
        after=("clean", "vinegar"),
        applies=When(_urine),
    ),
    # No reassurance about blood: drugs, platelets and liver are never all known here.
    StepRule(
        "dry",
        "Pat dry, do not rub. Blood on wiping: press lightly and time it; ask about blood "
        "thinners, platelets and liver disease before calling it harmless.",
        "Pat the skin dry. If it bleeds, press lightly. If it goes on for 5 minutes or comes "
        "back, call us.",
        after=("clean", "vinegar", "wick"),
        applies=When(lambda c: not _veins(c)),
        sources=(PRACTICE, DESIGN),
    ),
    StepRule(
        "dry_veins",
        "Dab dry, never rub: veins round the stoma, seen or possible, bleed easily. Any blood: "
        "press, and call the liver team today even where it stopped.",
        "Dab the skin dry. Do not rub. If it bleeds, press on it. Call us the same day, even if "
        "it stops.",
        after=("clean", "vinegar", "wick"),
        applies=When(_veins),
        sources=(PRACTICE, DESIGN),
    ),
    StepRule(
        "check",
        "Check colour, junction and skin.",
        "Look at your stoma. It should be red or pink and moist.",
        after=("dry", "dry_veins"),
    ),
    StepRule(
        "measure",
        "Measure at the base, longest way and across.",
        "Measure your stoma where it meets the skin.",
        after=("check",),
        applies=When(shrinks),
        sources=("weekly/measured", PRACTICE),
    ),
    StepRule(
        "trim",
        "Trim hair with scissors or an electric trimmer.",
        "Trim the hair. Do not shave it dry.",
        after=("check",),
        applies=When(_hairs),
        sources=("folliculitis/trim",),
    ),
    StepRule(
        "fill_wound",
        "Fill the wound loosely with the absorbent, cover it; pouch over it.",
        "Lay the soft filler in the wound as you were shown. Do not press it in.",
        after=("check", "trim", *_CUT),
        applies=uses("absorbent_dressing"),
        sources=(MEMORY, "swedish/dressing"),
    ),
    StepRule(
        "powder",
        _where_powder,
        "Dust a little powder on the wet, sore skin only.",
        after=("check", "trim", *_CUT, "fill_wound"),
        applies=uses("powder", "antifungal_powder"),
        sources=("crusting/wet_only",),
    ),
    StepRule(
        "brush_off",
        "Brush or blow off all loose powder.",
        "Brush off all loose powder.",
        after=("powder",),
        applies=uses("powder", "antifungal_powder"),
        sources=("crusting/layers",),
    ),
    StepRule(
        "seal_powder",
        "Dab (do not wipe) alcohol-free film over the powder; let it dry until not tacky.",
        "Dab the skin film over the powder. Let it dry until it is not sticky.",
        after=("brush_off",),
        applies=uses("powder", "antifungal_powder") & uses("protectant"),
        sources=("crusting/layers",),
    ),
    StepRule(
        "repeat_layers",
        "Repeat powder and film until the skin is dry to touch: 2 to 3 layers, never more than 3.",
        "If the skin still feels wet, do it once or twice more. Stop at three layers.",
        after=("seal_powder",),
        applies=uses("powder", "antifungal_powder") & uses("protectant"),
        sources=("crusting/layers",),
    ),
    StepRule(
        "film",
        "Thin film of alcohol-free protectant under the adhesive; let it dry.",
        "Dab the skin film on. Let it dry.",
        after=("check", "trim", *_CUT, "fill_wound"),
        applies=carrying("protectant", _film_alone),
        sources=("accessories/no_alcohol", PRACTICE),
    ),
)
