"""When a supply must not be used. A hazard in force is never outweighed by any need.

A supply already worn may be allowed to ``stay``: never, while the system works, while the opening
fits, or always (the hazard then only bars starting it).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import BELT_FROM, EARLY_DAYS, FISTULA_CLEAR
from planning.facts.colour import dark
from planning.facts.derive import BROKEN, fistula_at_barrier
from planning.facts.height import Height
from planning.facts.separation import SeparationClass
from planning.geometry.barrier import BELT_LINE
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    BaselineKind,
    Bleeding,
    ChangedBy,
    Condition,
    Product,
    SkinKind,
    StomaKind,
)
from planning.ranked_facts import RankedFacts
from planning.results.plan import Reason
from planning.supplies.opening_kind import pre_cut_barred

#: A belt lies over the skin at these hours (design value).
_BELT_HOURS: Final = ClockHours.of(3, 9)


class Stay(StrEnum):
    """Whether what is already worn may stay in spite of the hazard."""

    NEVER = "never"
    WHILE_IT_WORKS = "while_it_works"
    WHILE_IT_FITS = "while_it_fits"
    ALWAYS = "always"


@dataclass(frozen=True, slots=True)
class Hazard:
    """``text`` completes "Not with ..."."""

    key: str
    text: str
    sources: tuple[str, ...]
    holds: Callable[[RankedFacts], bool]
    stay: Stay = Stay.NEVER

    @property
    def reason(self) -> Reason:
        return Reason(f"Not with {self.text}.", self.sources)


def _varices(s: RankedFacts) -> bool:
    """Veins agreed once stay a hazard when the agreement lapses."""
    seen = s.facts.find(SkinKind.DILATED_VEINS)
    return bool(seen) or s.facts.history.ever_agreed(BaselineKind.VARICES)


def _liver(s: RankedFacts) -> bool:
    """Without veins it does not bar what is worn; new pressure waits for the liver team."""
    return any(
        s.facts.has(condition)
        for condition in (
            Condition.LIVER_DISEASE,
            Condition.CIRRHOSIS,
            Condition.PORTAL_HYPERTENSION,
        )
    )


def _bleeding_liver(s: RankedFacts) -> bool:
    """More than a contact bleed with liver disease may come from veins that are not seen."""
    calm = (None, Bleeding.NONE, Bleeding.ON_WIPING)
    return _liver(s) and s.facts.findings.measurement.bleeding not in calm


def _early(s: RankedFacts) -> bool:
    days = s.facts.findings.stoma.days_since_surgery
    early = (days is not None and days <= EARLY_DAYS.value) or bool(s.facts.separated)
    return early and not s.facts.history.specialist_convexity_assessment


def _deep_separation(s: RankedFacts) -> bool:
    """Class 2 and deeper: no assessment on record opens it for what presses."""
    depth = s.facts.separation_class
    return depth is not None and depth >= SeparationClass.DEEP


def _early_firm(s: RankedFacts) -> bool:
    days = s.facts.findings.stoma.days_since_surgery
    return (days is not None and days <= EARLY_DAYS.value) or bool(s.facts.separated)


def _date_unknown(s: RankedFacts) -> bool:
    unknown = s.facts.findings.stoma.days_since_surgery is None
    return unknown and not s.facts.history.specialist_convexity_assessment


def _bulge(s: RankedFacts) -> bool:
    """Convexity beside a hernia: soft, for a flush stoma, and only with a nurse's reason."""
    flush = s.facts.height in (Height.FLUSH, Height.RETRACTED)
    return bool(s.facts.bulging) and not (flush and s.facts.history.convexity_reason.strip())


def _dry_skin(s: RankedFacts) -> bool:
    return s.facts.findings.skin is not None and not s.facts.weeping


def _no_one_helps(s: RankedFacts) -> bool:
    person = s.facts.findings.person
    hand = person.dexterity in (Ability.ONE_HAND, Ability.NONE)
    sight = person.eyesight in (Ability.LIMITED, Ability.NONE)
    return (hand or sight) and person.changed_by in (None, ChangedBy.SELF)


def _raw_belt_line(s: RankedFacts) -> bool:
    return any(
        seen.finding.hours & _BELT_HOURS
        and (seen.finding.outer_mm is None or seen.finding.outer_mm >= BELT_FROM.value)
        for seen in s.facts.find(*BROKEN)
    )


def _sore_border(s: RankedFacts) -> bool:
    return any(seen.finding.outline_of is Product.TAPE_BORDER for seen in s.facts.damaged)


def _dark(s: RankedFacts) -> bool:
    """Anywhere on the stoma: a dark part beside a red one counts."""
    return dark(s.facts)


def _plaques(s: RankedFacts) -> bool:
    known = s.facts.has(Condition.PSORIASIS_OR_ECZEMA) is True
    return known and s.likely("dermatosis")


def _fistula(s: RankedFacts) -> bool:
    return fistula_at_barrier(s.facts)


def _fistula_belt(s: RankedFacts) -> bool:
    """A belt presses the whole barrier down, and further out the skin along its line."""
    return _fistula(s) or bool(s.facts.hours_of(SkinKind.FISTULA) & BELT_LINE)


def _irradiated(s: RankedFacts) -> bool:
    """Any radiotherapy of the abdomen on record, whatever the skin looks like today.

    Neither the field nor its dates are recorded, so the skin at the stoma may lie in it; irradiated
    skin that looks sound can still be thin. Nothing that presses is therefore begun. What is worn
    stays only while the system works, which asks for skin that was looked at and found sound: with
    any damage, with skin not recorded, or with a leak it has to go.
    """
    return bool(s.facts.has(Condition.RADIOTHERAPY_ABDOMEN))


_ALL: Final = (
    Hazard("varices", "known or suspected varices",
           ("complicationsreview/precautions", "white/review", MEMORY),
           _varices),
    Hazard("bleeding_liver", "bleeding and liver disease: varices may not be seen", (DESIGN,),
           _bleeding_liver),
    Hazard("liver", "liver disease before the liver team was asked", (DESIGN,), _liver,
           stay=Stay.ALWAYS),
    Hazard("pyoderma", "suspected pyoderma",
           ("hughes2000/injury", "taylor2018/no_pressure", MEMORY),
           lambda s: s.flagged("pyoderma")),
    Hazard("pressure_injury", "an unhealed pressure injury",
           (PRACTICE, "complicationsreview/precautions"),
           lambda s: s.barrier_injures),
    Hazard("pressure_injury_belt", "an unhealed pressure injury under it or near it", (PRACTICE,),
           lambda s: bool(s.injured_by_pressure)),
    Hazard("ulcer", "an ulcer under the system", ("complicationsreview/precautions", DESIGN),
           lambda s: bool(s.facts.find(SkinKind.ULCER, SkinKind.UNDERMINED_ULCER))),
    Hazard("malignancy", "a suspicious growth", (PRACTICE,),
           lambda s: s.flagged("lump", "lasting_lump", "warty_stays")),
    Hazard("ischaemia", "a dark stoma", (PRACTICE,), _dark),
    Hazard("infection", "an infection of the skin", (PRACTICE,),
           lambda s: s.flagged("infection", "infected_hairs", "abscess", "necrotising")),
    Hazard("edge_hidden", "a spreading infection whose edge must be seen", (MEMORY, DESIGN),
           lambda s: s.flagged("necrotising")),
    Hazard("plaques", "plaques of a skin disease under it", (PRACTICE,), _plaques),
    Hazard("rod", "a rod in place", (PRACTICE,),
           lambda s: bool(s.facts.findings.stoma.rod_in_place)),
    Hazard("prolapse", "a prolapse", ("complicationsreview/prolapse", PRACTICE),
           lambda s: bool(s.facts.prolapsed)),
    Hazard("prolapse_coupling", "a prolapse", (PRACTICE,),
           lambda s: bool(s.facts.prolapsed), stay=Stay.WHILE_IT_WORKS),
    Hazard("early",
           "the first 30 days or a fresh separation, without a specialist's recorded assessment",
           ("ascnuk2025/assessed", "colwell2022/early", "stoiadavis2022/periods", DESIGN), _early),
    Hazard("deep_separation", "a deep mucocutaneous separation, whatever was assessed",
           (DESIGN, PRACTICE), _deep_separation),
    Hazard("trapped_bulge", "a bulge that hurts, is hard or no longer goes back",
           (DESIGN, PRACTICE), lambda s: s.flagged("hernia_trapped")),
    Hazard("early_firm", "the first 30 days or a fresh separation: soft convexity first",
           (PRACTICE, "complicationsreview/precautions", DESIGN), _early_firm),
    Hazard("surgery_date_unknown", "an unknown time since surgery", (DESIGN, "ascnuk2025/assessed"),
           _date_unknown, stay=Stay.ALWAYS),
    Hazard("bulge", "a bulge beside the stoma, without a flush stoma and a nurse's reason",
           ("complicationsreview/hernia", PRACTICE), _bulge, stay=Stay.WHILE_IT_WORKS),
    Hazard("bulge_firm", "a bulge beside the stoma", ("complicationsreview/hernia",),
           lambda s: bool(s.facts.bulging), stay=Stay.WHILE_IT_WORKS),
    Hazard("bulge_belt", "a bulge beside the stoma: a narrow belt presses unevenly",
           ("pressure2007/belt_uneven", DESIGN),
           lambda s: bool(s.facts.bulging), stay=Stay.WHILE_IT_WORKS),
    Hazard("separation", "a mucocutaneous separation", (MEMORY,),
           lambda s: bool(s.facts.separated)
           and not s.facts.history.specialist_convexity_assessment),
    Hazard("raw_belt_line", "raw skin under it", ("complicationsreview/belt", DESIGN),
           _raw_belt_line),
    Hazard("fistula",
           f"a fistula under the barrier or within {FISTULA_CLEAR.value:g} mm of it, or with one "
           "whose distance from the stoma is not recorded", (DESIGN,), _fistula),
    Hazard("fistula_belt",
           "a fistula under the belt, under the barrier that it presses down, or whose distance "
           "from the stoma is not recorded", (DESIGN,), _fistula_belt),
    Hazard("radiation", "radiotherapy of the abdomen on record: irradiated skin bears no pressure",
           (PRACTICE, MEMORY, DESIGN), _irradiated, stay=Stay.WHILE_IT_WORKS),
    Hazard("deep_gap", "a gap at the mucocutaneous junction", (PRACTICE,),
           lambda s: bool(s.facts.separated)),
    Hazard("sore_border", "skin that is sore in the outline of the tape", (PRACTICE,),
           _sore_border),
    Hazard("dry_skin", "dry skin: powder is not for prevention", ("crusting/wet_only",), _dry_skin,
           stay=Stay.WHILE_IT_WORKS),
    Hazard("no_one_helps",
           "one hand or poor sight and no one who helps: powder and film are not begun",
           (DESIGN,), _no_one_helps, stay=Stay.ALWAYS),
    Hazard("no_yeast", "no satellite spots or positive test recorded", (MEMORY,),
           lambda s: not s.facts.find(SkinKind.SATELLITES), stay=Stay.ALWAYS),
    Hazard("no_prescriber", "no prescriber's agreement recorded", (PRACTICE, MEMORY),
           lambda s: not s.facts.history.prescriber_agreed_antifungal, stay=Stay.ALWAYS),
    Hazard("urine", "a urostomy", (PRACTICE,), lambda s: s.facts.kind is StomaKind.UROSTOMY),
    Hazard("not_urine", "a bowel stoma", (PRACTICE,),
           lambda s: s.facts.kind is not StomaKind.UROSTOMY),
    Hazard("liquid", "liquid output, which must be emptied often", (PRACTICE,),
           lambda s: s.facts.small_bowel or bool(s.facts.liquid), stay=Stay.WHILE_IT_WORKS),
    Hazard("liquid_now", "liquid output on record: a closed pouch is changed for one that empties",
           (DESIGN, PRACTICE), lambda s: bool(s.facts.liquid)),
    Hazard("pre_cut", "a stoma that is oval, new, changing, of unknown size or between sizes",
           ("oklahoma1997/cut_first", DESIGN), lambda s: pre_cut_barred(s.facts) is not None,
           stay=Stay.WHILE_IT_FITS),
)  # fmt: skip

#: By key.
HAZARDS: Final[dict[str, Hazard]] = {hazard.key: hazard for hazard in _ALL}


def in_force(situation: RankedFacts) -> dict[str, Hazard]:
    """Every hazard that these findings make real."""
    return {hazard.key: hazard for hazard in _ALL if hazard.holds(situation)}
