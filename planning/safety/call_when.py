"""When to call whom: lines for the sheet, by kind of stoma and by what is worn.

Each danger is named once; dangers of one urgency and one group share a line, so that the sheet
stays short. Times follow the shortest published with symptoms. Never: reduction of a prolapse,
sugar, dilation, anything into the stoma, laxatives, plain water for high output.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.facts.separation import SeparationClass
from planning.inputs.findings import BaselineKind, Medicine, StomaKind
from planning.ranked_facts import RankedFacts
from planning.results.message import AFTER, DANGER, Message, Text
from planning.results.plan import CallWhen, Urgency

_E, _S, _D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS
_T: Final = Urgency.TELEPHONE

#: Words in one sentence at most, for a reader of grade 6 (design value).
_LONGEST: Final = 22


@dataclass(frozen=True, slots=True)
class Danger:
    """One thing the patient may see. ``words`` complete "Call when ..."; ``then`` follows
    the line. Dangers of the same ``group`` and urgency share a line. ``told`` None: to everybody;
    else asked of the findings and of whether convexity or a belt is part of the plan.
    ``adult_figures``: the words name a figure for adults; under 16 it is not shown, and
    ``planning.children.dangers`` says it in words."""

    key: str
    urgency: Urgency
    group: str
    words: str
    sources: tuple[str, ...]
    then: str = ""
    told: Callable[[RankedFacts, bool], bool] | None = None
    adult_figures: bool = False


def call_when(situation: RankedFacts, *, presses: bool) -> tuple[CallWhen, ...]:
    """Lines in order of urgency. ``presses``: convexity or a belt is part of the plan."""
    return lines_of(dangers(situation, presses=presses))


def lines_of(dangers: Iterable[Danger]) -> tuple[CallWhen, ...]:
    """Dangers of one urgency and one group share a line; the most urgent first."""
    lines: dict[tuple[Urgency, str], list[Danger]] = {}
    for danger in dangers:
        lines.setdefault((danger.urgency, danger.group), []).append(danger)
    return tuple(_line(lines[key]) for key in sorted(lines, key=lambda key: key[0].rank))


def _line(dangers: list[Danger]) -> CallWhen:
    words, joins = dangers[0].words, []
    for danger in dangers[1:]:
        sentence = f"{words.rpartition('. ')[2]}, or {danger.words}"
        joins.append(", or " if len(sentence.split()) <= _LONGEST else ". Or ")
        words += joins[-1] + danger.words
    line = _joined([Message(danger.words, DANGER) for danger in dangers], joins)
    then = (Message(danger.then, AFTER) for danger in dangers if danger.then)
    sources = tuple(dict.fromkeys(source for danger in dangers for source in danger.sources))
    return CallWhen(dangers[0].urgency, Text((line, *then)), sources)


def _joined(dangers: list[Message], joins: list[str]) -> Message:
    """The first and, joined to it, all others."""
    if not joins:
        return dangers[0]
    join = f"{{first}}{joins[0]}{{second}}"
    return Message.of(join, first=dangers[0], second=_joined(dangers[1:], joins[1:]))


def dangers(situation: RankedFacts, *, presses: bool) -> Iterator[Danger]:
    """Everything that this person must know to call about."""
    for danger in DANGERS:
        if danger.told is None or danger.told(situation, presses):
            yield danger


def _kind(*kinds: StomaKind) -> Callable[[RankedFacts, bool], bool]:
    return lambda situation, _: situation.facts.kind in kinds


def _prolapsed(situation: RankedFacts, _: bool) -> bool:
    return bool(situation.facts.prolapsed)


def _apart(situation: RankedFacts, _: bool) -> bool:
    return bool(situation.facts.separated)


def _veins(situation: RankedFacts, _: bool) -> bool:
    return situation.likely("varices")


def _no_veins(situation: RankedFacts, _: bool) -> bool:
    return not situation.likely("varices")


def _presses(_: RankedFacts, presses: bool) -> bool:
    return presses


_URO: Final = _kind(StomaKind.UROSTOMY)
_COLO: Final = _kind(StomaKind.COLOSTOMY)


def _stool_late(situation: RankedFacts, _: bool) -> bool:
    """Where a blockage is thought of no count of days may calm; where none came, it is known."""
    colostomy = situation.facts.kind is StomaKind.COLOSTOMY
    return colostomy and not situation.flagged("blocked_colostomy", "overflow", "constipation")


def _no_stool(situation: RankedFacts, _: bool) -> bool:
    return situation.flagged("constipation")


def _flows_over(situation: RankedFacts, _: bool) -> bool:
    return situation.flagged("overflow")


def _narrow(situation: RankedFacts, _: bool) -> bool:
    return situation.flagged("narrow") and situation.facts.kind is not StomaKind.UROSTOMY


def _open_gap(situation: RankedFacts, _: bool) -> bool:
    """Its base not seen, or stool, urine or pus in it: any sign of infection is an emergency."""
    return situation.facts.separation_class is SeparationClass.OPEN


def _closed(situation: RankedFacts, _: bool) -> bool:
    """A bowel stoma, where a fever is no emergency by itself."""
    bowel = situation.facts.kind is not StomaKind.UROSTOMY
    return bowel and not _open_gap(situation, _)


def _warmth(situation: RankedFacts, presses: bool) -> bool:
    return not _closed(situation, presses)


def _steroid(situation: RankedFacts, _: bool) -> bool:
    """Tablets come out whole, and a steroid is or may be among them."""
    steroid = situation.facts.findings.person.takes(Medicine.STEROID)
    return situation.flagged("tablets_whole") and steroid is not False


def _target(situation: RankedFacts, _: bool) -> bool:
    return situation.facts.history.baseline(BaselineKind.OUTPUT_TARGET) is not None


def _one(situation: RankedFacts, _: bool) -> bool:
    """A small-bowel stoma with no second one beside it that rests: nothing else can be silent."""
    return situation.facts.small_bowel and not _beside_resting(situation, _)


def _beside_resting(situation: RankedFacts, _: bool) -> bool:
    others = situation.facts.findings.other_stomas or ()
    return situation.facts.small_bowel and any(other.rests for other in others)


def _no_target(situation: RankedFacts, _: bool) -> bool:
    """Where a target was agreed, and with a jejunostomy, much output may be usual."""
    ileostomy = situation.facts.kind is StomaKind.ILEOSTOMY
    return ileostomy and situation.facts.history.baseline(BaselineKind.OUTPUT_TARGET) is None


#: In the order in which they are shown.
DANGERS: Final = (
    Danger("dark_or_pale", _E, "stoma", "your stoma turns black, purple or very pale",
           (PRACTICE,)),
    Danger("hard_lump", _E, "stoma", "a lump beside it gets hard and hurts", (PRACTICE,)),
    Danger("long_stoma", _E, "prolapse", "the long stoma gets dark, hard or sore",
           ("complicationsreview/prolapse_dark", PRACTICE), "Do not push it.", told=_prolapsed),
    Danger("bowel_beside", _E, "stoma", "bowel comes out beside it", (DESIGN,)),
    Danger("veins_bleed", _E, "bleeding", "it bleeds and goes on, even a little",
           ("strauss2014/at_once", PRACTICE), "Press, lie flat and call.", told=_veins),
    Danger("bleeds_on", _E, "bleeding",
           "it bleeds and does not stop after you press for 10 minutes", (DESIGN,),
           told=_no_veins, adult_figures=True),
    Danger("faint_or_dry", _E, "person", "you faint, get confused or pass very little urine",
           ("gateshead/dry", PRACTICE)),
    Danger("face_swells", _E, "person", "your face swells or you cannot breathe well",
           (PRACTICE,)),
    Danger("urine_stops", _E, "kind", "no urine comes for 4 hours", (MEMORY,),
           told=_URO, adult_figures=True),
    Danger("urine_fever", _E, "kind", "you have a fever or pain in your side or back", (MEMORY,),
           told=_URO),
    Danger("urine_late", _S, "kind", "no urine comes for 2 hours though you drink", (MEMORY,),
           told=_URO, adult_figures=True),
    Danger("urine_smells", _D, "again", "your urine smells strong or feels gritty",
           ("urostomy2014/odour", "urostomy2014/crystals", DESIGN), told=_URO),
    Danger("stool_blocked", _E, "kind", "no stool comes for a day and you have pain or vomit",
           (PRACTICE,), told=_COLO, adult_figures=True),
    Danger("stool_late", _D, "again", "no stool comes for 3 days", (PRACTICE,),
           told=_stool_late, adult_figures=True),
    Danger("flows_over", _E, "kind", "you vomit or no gas comes", (DESIGN,), told=_flows_over),
    Danger("stool_slow", _S, "kind", "your belly swells or no gas comes", (DESIGN,),
           told=_no_stool),
    Danger("ileo_blocked", _E, "kind",
           "nothing comes for 4 hours and you have strong cramps or vomit",
           ("obstruction/four_hours", "seekhelp2009/blocked", DESIGN), told=_one,
           adult_figures=True),
    Danger("working_blocked", _E, "kind",
           "your working stoma gives nothing for 4 hours and you have strong cramps or vomit",
           ("obstruction/four_hours", "seekhelp2009/blocked", DESIGN), told=_beside_resting,
           adult_figures=True),
    Danger("narrow_blocked", _E, "kind",
           "nothing comes and you have cramps, vomit or a swollen belly", (PRACTICE, DESIGN),
           told=_narrow),
    Danger("two_litres", _E, "kind", "more than 2 litres come in a day", (DESIGN,),
           told=_no_target, adult_figures=True),
    Danger("gap_infected", _E, "kind",
           "you have a fever, shiver, your heart races or your belly hurts", (DESIGN,),
           told=_open_gap),
    Danger("steroid_lost", _E, "kind", "you faint, vomit or get very weak", (MEMORY, DESIGN),
           told=_steroid),
    Danger("ileo_later", _S, "skin", "nothing comes for 12 hours", (DESIGN,),
           told=_one, adult_figures=True),
    Danger("working_later", _S, "skin", "your working stoma gives nothing for 12 hours", (DESIGN,),
           told=_beside_resting, adult_figures=True),
    Danger("over_target", _S, "target",
           "more comes than agreed for 2 days, you lose 2 kilos of weight or pass less urine than "
           "agreed", (DESIGN,), told=_target, adult_figures=True),
    Danger("salt_lost", _S, "target", "you are dizzy when you stand or have cramps in arms or legs",
           (DESIGN,), told=_target),
    Danger("ileo_late", _T, "kind", "nothing comes for 6 hours", (DESIGN,),
           told=_one, adult_figures=True),
    Danger("working_late", _T, "kind", "your working stoma gives nothing for 6 hours",
           (DESIGN,), told=_beside_resting, adult_figures=True),
    Danger("one_litre", _T, "kind", "more than 1 litre comes in a day", ("gateshead/call_1000",),
           told=_no_target, adult_figures=True),
    Danger("stays_watery", _T, "kind", "it stays watery for a day", ("gateshead/watery",),
           told=_no_target, adult_figures=True),
    Danger("blood_again", _S, "blood",
           "you see blood from inside the stoma or in the pouch again and again",
           ("nca/blood", "seekhelp2009/blood", DESIGN)),
    Danger("deep_cut_seen", _S, "blood", "your stoma has a deep cut",
           ("seekhelp2009/deep_cut", DESIGN)),
    Danger("warmth", _S, "skin", "red, warm skin spreads", ("hightech/cellulitis", PRACTICE),
           told=_warmth),
    Danger("warmth_or_fever", _S, "skin", "red, warm skin spreads or you have a fever",
           ("hightech/cellulitis", PRACTICE, DESIGN), told=_closed),
    Danger("long_stays_out", _S, "skin", "the long stoma stays out and used to go back",
           (DESIGN,), told=_prolapsed),
    Danger("gap_deeper", _S, "skin", "the gap at your stoma gets deeper", (MEMORY,), told=_apart),
    Danger("mark_stays", _S, "skin", "a red mark or sore stays where the barrier or belt presses",
           ("urostomy2014/belt_sore", "complicationsreview/imprint", DESIGN), told=_presses),
    Danger("leaks_again", _D, "again", "it leaks, itches or burns again",
           ("nca/leaks", "encyclopedia/change_at_once", PRACTICE)),
    Danger("looks_different", _D, "again", "your stoma changes size or looks different",
           ("seekhelp2009/looks", DESIGN)),
)  # fmt: skip
