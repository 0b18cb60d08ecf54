"""Nothing reassures about what a red flag warns of."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from planning.consistency.said import Fault, Part, Said
from planning.inputs.findings import SkinKind

_REASSURES: Final = re.compile(
    r"\b(?:is|are) (?:usually |often |still |quite )?(?:usual|normal|harmless|fine|well|venous)\b"
    r"|\bnothing to worry\b|\bchange nothing\b|\bseals? well\b|\ba good fit\b|\bmay stay\b",
    re.IGNORECASE,
)
_BLOOD: Final = re.compile(
    r"\b(?:blood|bleed\w*|oozing)\b[^.;:]*"
    r"\b(?:normal|usual(?:ly)?|(?<!calling it )harmless|no danger)\b",
    re.IGNORECASE,
)
_BLEEDS: Final = (
    "spurting", "heavy_bleed", "variceal_bleed", "veins", "blood_in_output", "red_food", "oozing",
    "contact_on_anticoagulant", "bleed_stopped",
)  # fmt: skip


def reassures_what_is_flagged(said: Said) -> Iterator[Fault]:
    """A calming line that rests on a finding of a red flag, or is said of the whole plan."""
    flags = said.plan.red_flags
    flagged = {reason.finding for flag in flags for reason in flag.because if reason.finding}
    for line in said.of(Part.HEADLINE, Part.ADVICE, Part.STEP, Part.NOTICE):
        over_all = line.part is Part.HEADLINE and bool(flags)
        if not over_all and line.at not in flagged:
            continue
        if any(map(_REASSURES.search, line.texts)):
            yield Fault("reassures", line, "a red flag warns of it")


def calls_blood_usual(said: Said) -> Iterator[Fault]:
    """Beside veins, or where bleeding is flagged, no blood is called usual."""
    situation = said.situation
    veins = situation.facts.find(SkinKind.DILATED_VEINS) or situation.likely("varices")
    if not veins and not situation.flagged(*_BLEEDS):
        return
    for line in said.of(Part.ADVICE, Part.STEP, Part.NOTICE):
        if any(map(_BLOOD.search, line.texts)):
            yield Fault("blood", line, "a red flag or veins warn of blood")
