"""Diagnosis codes that the findings suggest: never assigned, always for a coder to confirm.

Titles are the official ones of the release named; retraction, prolapse and separation of a bowel
stoma have no code of their own (the usual choice is common practice). What is only feared is not
suggested: neither growth nor pyoderma is coded before it is confirmed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final

from planning.coding.code_pairs import prompts
from planning.evidence.sources import PRACTICE
from planning.facts.height import Height
from planning.inputs.findings import Bleeding, Material, SkinKind, StomaKind
from planning.ranked_facts import RankedFacts
from planning.results.plan import Reason, SuggestedCode

RELEASE: Final = "ICD-10-CM, April 2026"
#: Shown beside every code, on screen and on paper.
CAVEAT: Final = "suggestion, to be confirmed by a coder"

TITLES: Final = {
    "Z93.2": "Ileostomy status",
    "Z93.3": "Colostomy status",
    "Z93.4": "Other artificial openings of gastrointestinal tract status",
    "Z93.6": "Other artificial openings of urinary tract status",
    "K94.01": "Colostomy hemorrhage",
    "K94.02": "Colostomy infection",
    "K94.03": "Colostomy malfunction",
    "K94.09": "Other complications of colostomy",
    "K94.11": "Enterostomy hemorrhage",
    "K94.12": "Enterostomy infection",
    "K94.13": "Enterostomy malfunction",
    "K94.19": "Other complications of enterostomy",
    "N99.520": "Hemorrhage of incontinent external stoma of urinary tract",
    "N99.521": "Infection of incontinent external stoma of urinary tract",
    "N99.523": "Herniation of incontinent stoma of urinary tract",
    "N99.528": "Other complication of incontinent external stoma of urinary tract",
    "K43.3": "Parastomal hernia with obstruction, without gangrene",
    "K43.5": "Parastomal hernia without obstruction or gangrene",
    "L24.B1": "Irritant contact dermatitis related to digestive stoma or fistula",
    "L24.B3": "Irritant contact dermatitis related to fecal or urinary stoma or fistula",
    "L23.1": "Allergic contact dermatitis due to adhesives",
    "B37.2": "Candidiasis of skin and nail",
    "L73.9": "Follicular disorder, unspecified",
    "L92.8": "Other granulomatous disorders of the skin and subcutaneous tissue",
    "L03.311": "Cellulitis of abdominal wall",
    "I86.8": "Varicose veins of other specified sites",
    "E86.0": "Dehydration",
}

_BLEEDS: Final = ("K94.01", "K94.11", "N99.520")
_INFECTED: Final = ("K94.02", "K94.12", "N99.521")
_MALFUNCTION: Final = ("K94.03", "K94.13", "N99.528")
_OTHER: Final = ("K94.09", "K94.19", "N99.528")
_HERNIA: Final = ("K43.5", "K43.5", "N99.523")
_HERNIA_TRAPPED: Final = ("K43.3", "K43.3", "N99.523")


@dataclass(frozen=True, slots=True)
class CodeRule:
    """``codes`` for colostomy, ileostomy or jejunostomy, urostomy; one code serves all."""

    key: str
    text: str
    codes: tuple[str, ...]
    holds: Callable[[RankedFacts], bool]
    at: str = "skin"
    sources: tuple[str, ...] = ("icd10cm/titles",)

    def code(self, kind: StomaKind) -> str:
        """The code for this kind of stoma."""
        places = {StomaKind.COLOSTOMY: 0, StomaKind.UROSTOMY: 2}
        return self.codes[0] if len(self.codes) == 1 else self.codes[places.get(kind, 1)]


def _trapped(s: RankedFacts) -> bool:
    """Painful and known to be stuck, not only painful."""
    bulges = s.facts.findings.abdomen.bulges or ()
    return any(bulge.painful and bulge.reducible is False for bulge in bulges)


def _bleeds(s: RankedFacts) -> bool:
    inside = s.facts.findings.measurement.bleeding in (
        Bleeding.SEVERAL_EMPTIES,
        Bleeding.FROM_LUMEN,
    )
    return inside or s.flagged("spurting", "variceal_bleed", "oozing")


def _adhesive_allergy(s: RankedFacts) -> bool:
    likely = s.likely("allergic_contact") and s.facts.leaking is False
    return likely and s.suspected is Material.BARRIER_ADHESIVE


def _irritated(s: RankedFacts, *kinds: StomaKind) -> bool:
    return s.likely("irritant_effluent") and s.facts.kind in kinds


_STOOL_OR_URINE: Final = (StomaKind.ILEOSTOMY, StomaKind.COLOSTOMY, StomaKind.UROSTOMY)

RULES: Final = (
    CodeRule("bleeding", "It bleeds from the stoma.", _BLEEDS,
             _bleeds,
             "measurement.bleeding"),
    CodeRule("infected", "The skin round the stoma is infected.", _INFECTED,
             lambda s: s.flagged("infection", "abscess", "necrotising")),
    CodeRule("malfunction", "The stoma is prolapsed or retracted (no code of its own).",
             _MALFUNCTION,
             lambda s: bool(s.facts.prolapsed) or s.facts.height is Height.RETRACTED,
             "measurement", ("icd10cm/titles", PRACTICE)),
    CodeRule("apart", "Mucocutaneous separation (no code of its own).", _OTHER,
             lambda s: bool(s.facts.separated), "measurement.junction",
             ("icd10cm/titles", PRACTICE)),
    CodeRule("hernia_with_obstruction", "A trapped bulge, if it is confirmed as a hernia.",
             _HERNIA_TRAPPED, _trapped, "abdomen.bulges"),
    CodeRule("hernia", "A bulge beside the stoma, if it is confirmed as a hernia.", _HERNIA,
             lambda s: bool(s.facts.bulging) and not _trapped(s), "abdomen.bulges"),
    CodeRule("stool_or_urine", "Irritation by effluent is likely.", ("L24.B3",),
             lambda s: _irritated(s, *_STOOL_OR_URINE)),
    CodeRule("digestive_fluid", "Irritation by effluent of a jejunostomy is likely.", ("L24.B1",),
             lambda s: _irritated(s, StomaKind.JEJUNOSTOMY)),
    CodeRule("adhesive_allergy", "Allergy to the adhesive is likely and no leak explains it.",
             ("L23.1",), _adhesive_allergy),
    CodeRule("candida", "Yeast is likely.", ("B37.2",), lambda s: s.likely("yeast")),
    CodeRule("hair_roots", "Inflamed hair roots are likely.", ("L73.9",),
             lambda s: s.likely("folliculitis")),
    CodeRule("granulation", "A granuloma is likely.", ("L92.8",), lambda s: s.likely("granuloma")),
    CodeRule("cellulitis", "Warm, tender redness spreads.", ("L03.311",),
             lambda s: bool(s.facts.find(SkinKind.SPREADING_WARMTH))),
    CodeRule("stoma_varices", "Dilated veins were seen round the stoma.", ("I86.8",),
             lambda s: bool(s.facts.find(SkinKind.DILATED_VEINS))),
    CodeRule("fluid_loss", "High output with signs of dehydration.", ("E86.0",),
             lambda s: s.flagged("dehydration") and s.flagged("high_output"), "output"),
)  # fmt: skip

#: Status codes: only where no complication of the stoma is suggested, which excludes them.
STATUS: Final = {
    StomaKind.ILEOSTOMY: "Z93.2",
    StomaKind.COLOSTOMY: "Z93.3",
    StomaKind.JEJUNOSTOMY: "Z93.4",
    StomaKind.UROSTOMY: "Z93.6",
}
_COMPLICATIONS: Final = ("K94", "N99.5")


def suggested_codes(situation: RankedFacts) -> tuple[SuggestedCode, ...]:
    """Complications first, then the skin, then the status; each code once."""
    found: dict[str, SuggestedCode] = {}
    for code, reason in _found(situation):
        because = (*found[code].because, reason) if code in found else (reason,)
        found[code] = SuggestedCode(code, TITLES[code], RELEASE, because)
    asked = prompts(tuple(found))
    return tuple(replace(item, note=_note(asked.get(item.code, ()))) for item in found.values())


def _found(situation: RankedFacts) -> Iterator[tuple[str, Reason]]:
    kind, complicated = situation.facts.kind, False
    for rule in RULES:
        if rule.holds(situation):
            code = rule.code(kind)
            complicated = complicated or code.startswith(_COMPLICATIONS)
            yield code, Reason(rule.text, rule.sources, rule.at)
    if not complicated:
        article = "an" if kind is StomaKind.ILEOSTOMY else "a"
        text = f"There is {article} {kind.value}."
        yield STATUS[kind], Reason(text, ("icd10cm/titles",), "stoma.kind")


def _note(asked: tuple[str, ...]) -> str:
    return "; ".join((CAVEAT, *asked))
