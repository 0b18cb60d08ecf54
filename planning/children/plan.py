"""The plan under 16, or at an unknown age: dangers, whom to ask, what not to do, what to keep; no
figure for adults."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from planning.children.dangers import call_when_under_16
from planning.children.missing import missing_under_16
from planning.children.thriving import next_look, thrives
from planning.coding.diagnoses import suggested_codes
from planning.evidence.rule_set import RULE_SET
from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import FOLLOW_NEXT_DAY
from planning.facts.derive import Facts
from planning.inputs.age import AgeGroup
from planning.instructions.dimension import stoma_size
from planning.ranked_facts import RankedFacts
from planning.recommendations.refer import referrals
from planning.results.message import to_patient
from planning.results.plan import (
    CauseRanking,
    Change,
    Dimensions,
    FollowUp,
    ItemKind,
    Plan,
    Reason,
    Recommendation,
    RedFlag,
    Urgency,
)
from planning.safety.emergency import meanwhile
from planning.safety.flags_children_output import TEAM
from planning.safety.remarks import remarks
from planning.safety.routine import AFTER_EMERGENCY, words_of_days

_AT: Final = "person.age_years"
#: The level in words: this plan holds no figures.
_WHEN: Final[Mapping[Urgency, str]] = {
    Urgency.EMERGENCY: "now, as an emergency",
    Urgency.SAME_DAY: "the same day",
    Urgency.TELEPHONE: "by telephone today, and record the answer",
    Urgency.DAYS: "within three days",
    Urgency.TWO_WEEKS: "within two weeks",
    Urgency.ROUTINE: "at the next visit",
}


@dataclass(frozen=True, slots=True)
class Words:
    """``headline`` without a full stop; ``notice`` says what is left out; ``ask`` whom to ask."""

    headline: str
    notice: str
    ask: str
    why: str
    again: str


KEPT: Final = Words(
    "All is well: keep everything as it is",
    "Sizes, amounts, limits and times for adults are left out. Output is judged by weight.",
    f"The {TEAM} goes on planning barrier, opening, pouch, wear and skin care",
    "Under sixteen no figure for adults holds.",
    "The child grows, and the stoma with it: measure again. Praise the parents.",
)
#: For a newborn or an infant, whose skin takes up more.
TENDER_SKIN: Final = Reason(
    "A newborn's or infant's skin takes up more. Leave off films and solvents with alcohol, "
    "tinctures that make tacky, routine paste, clouds of powder (they are breathed in), adhesive "
    "tape, strong extended-wear barriers, convexity, belts, scented wipes, antiseptics. Preterm: "
    "every product with the unit's pharmacist, else no powder, film, paste or remover.",
    ("infantskin/thin", "neonatalostomy/avoid", PRACTICE),
    _AT,
)
NO_RULES: Final = "No rules for children yet: a paediatric stoma team must plan this"
WORDS: Final[Mapping[AgeGroup, Words]] = {
    AgeGroup.CHILD: Words(
        NO_RULES,
        f"{NO_RULES}. Sizes, amounts, limits and times for adults are left out. Danger signs "
        "that apply at any age are judged.",
        f"Refer to a {TEAM}: it plans barrier, opening, pouch, wear and skin care",
        "Under sixteen no figure for adults applies.",
        f"Ask what the {TEAM} has planned.",
    ),
    AgeGroup.UNKNOWN: Words(
        "The age is not recorded: no plan is made until it is known",
        "The age is not recorded, and the rules here are for adults: no age is assumed. Danger "
        "signs are judged as for a child, so that none is missed.",
        f"Record the age. Under sixteen a {TEAM} plans the care",
        "Whether figures for adults apply is not known.",
        "Make the plan as soon as the age is known.",
    ),
}
_TEAM_IF_CHILD: Final = f"stoma team (under sixteen: {TEAM})"

#: Patients read these on the sheet.
NEVER: Final = Recommendation(
    key="never",
    kind=ItemKind.TEACH,
    change=Change.START,
    text="Never: push the stoma back, dilate it, put anything into it, give sugar, an enema or a "
    "laxative, start or stop a prescribed drug",
    because=(Reason("These do harm at any age.", (PRACTICE,)),),
    patient_text=to_patient(
        "Do not push the stoma in. Put nothing into it. Take no laxative. Do not start "
        "or stop a medicine by yourself."
    ),
)
KEEP: Final = Recommendation(
    key="as_given",
    kind=ItemKind.TEACH,
    change=Change.KEEP,
    text="Until then: what the team gave stays on. Start nothing new, above all nothing that "
    "presses (convexity, belt, rigid plate), and nothing with alcohol",
    because=(Reason("Without rules for it nothing new is started.", (DESIGN, PRACTICE), _AT),),
    patient_text=to_patient(
        "Keep using what your stoma team gave you. Start nothing new without them."
    ),
)
WELL: Final = Recommendation(
    key="as_given",
    kind=ItemKind.TEACH,
    change=Change.KEEP,
    text="Keep everything that is worn, its wear time too: no adult wear time is aimed at, nothing "
    "is added",
    because=(Reason("Sound skin, no leak, growing, output as it should be.", (PRACTICE,), _AT),),
    patient_text=to_patient("Keep using what your stoma team gave you. You do this well."),
)
CLEAR_OF_NAPPY: Final = Recommendation(
    key="clear_of_nappy",
    kind=ItemKind.TEACH,
    change=Change.KEEP,
    text="Turn the pouch so that the edge of the nappy does not lie on barrier or outlet",
    because=(Reason("It leaks, and a nappy presses on it.", (PRACTICE,), "system.leak"),),
    patient_text=to_patient("Turn the pouch so that the nappy does not lie on it."),
)
TEAM_PLANS: Final = "A children's stoma team will plan your care."
MEASURE_AGAIN: Final = "To measure your stoma again as you grow."
AGAIN: Final = "To hear what the children's stoma team has planned."


def plan_without_figures(situation: RankedFacts) -> Plan:
    """No supplies, steps, amounts or limits, no size but the measured stoma."""
    group = situation.facts.age_group
    kept = thrives(situation)
    words, plain = KEPT if kept else WORDS[group], _plain(situation, group)
    return Plan(
        rule_set=RULE_SET,
        urgency=situation.urgency,
        headline=_headline(plain, words),
        leave_alone=False,
        red_flags=plain.flags,
        causes=plain.causes,
        needs=(),
        recommendations=tuple(_doing(plain, words, kept=kept)),
        runner_up=None,
        dimensions=_measured(situation.facts),
        steps=(),
        quantities=(),
        follow_up=_kept_follow_up(plain) if kept else _follow_up(plain, words),
        call_when=call_when_under_16(situation),
        notices=(
            Reason(words.notice, (DESIGN,), _AT),
            *_of_the_skin(situation.facts),
            *remarks(situation.facts),
        ),
        missing=missing_under_16(situation.facts),
        supplies=(),
        suggested_codes=suggested_codes(plain),
        made_for=group,
    )


def _plain(situation: RankedFacts, group: AgeGroup) -> RankedFacts:
    """Without what rests on height zones or other limits for adults."""
    flags = situation.flags
    if group is AgeGroup.UNKNOWN:
        flags = tuple(replace(flag, refer_to=_if_child(flag)) for flag in flags)
    facts = replace(situation.facts, height=None, lift_mm=None)
    return RankedFacts(facts, CauseRanking(), flags)


def _if_child(flag: RedFlag) -> str:
    return flag.refer_to.replace(TEAM, _TEAM_IF_CHILD)


def _measured(facts: Facts) -> Dimensions:
    """Of the stoma alone; the share of damaged skin is that of a barrier for adults."""
    return replace(stoma_size(facts), skin_burden_mm2=None, skin_burden_share=None)


def _headline(situation: RankedFacts, words: Words) -> str:
    if not situation.flags:
        return words.headline
    flag = situation.flags[0]
    if situation.emergency:
        return f"Emergency. {flag.text}: {flag.refer_to}, now"
    return f"{flag.text}: {flag.refer_to}. {words.headline}"


def _of_the_skin(facts: Facts) -> Iterator[Reason]:
    if facts.findings.person.age_years == 0:
        yield TENDER_SKIN


def _doing(situation: RankedFacts, words: Words, *, kept: bool) -> Iterator[Recommendation]:
    if kept:
        yield WELL
    else:
        yield meanwhile(situation) if situation.emergency else KEEP
    yield NEVER
    if situation.facts.findings.person.age_years == 0 and situation.facts.leaking:
        yield CLEAR_OF_NAPPY
    child = situation.facts.age_group is AgeGroup.CHILD
    yield Recommendation(
        key="paediatric_team",
        kind=ItemKind.REFER,
        change=Change.START,
        text=words.ask,
        because=(Reason(words.why, (DESIGN,), _AT),),
        patient_text=to_patient(TEAM_PLANS if child else None),
    )
    yield from referrals(situation, _WHEN)


def _follow_up(situation: RankedFacts, words: Words) -> FollowUp:
    """Tomorrow, whatever was found: no interval for adults holds."""
    days = int(FOLLOW_NEXT_DAY.value)
    when = AFTER_EMERGENCY if situation.emergency else words_of_days(days)
    why = "An emergency: ask how it went." if situation.emergency else words.again
    child = situation.facts.age_group is AgeGroup.CHILD and not situation.emergency
    plain = AGAIN if child else "To hear how you are."
    return FollowUp(days, when, (Reason(why, (DESIGN,)),), to_patient(plain))


def _kept_follow_up(situation: RankedFacts) -> FollowUp:
    look = next_look(situation.facts)
    days = int(look.value)
    return FollowUp(
        days, words_of_days(days), (Reason(KEPT.again, (look.source,)),), to_patient(MEASURE_AGAIN)
    )
