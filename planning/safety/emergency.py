"""An emergency suppresses the supply plan: only what is safe in the meantime is said."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from planning.coding.diagnoses import suggested_codes
from planning.evidence.rule_set import RULE_SET
from planning.evidence.sources import PRACTICE
from planning.facts.missing import missing
from planning.instructions.dimension import stoma_size
from planning.notices import notices
from planning.ranked_facts import RankedFacts
from planning.recommendations.blockage import on_the_way
from planning.recommendations.refer import referrals
from planning.recommendations.situations.last_weeks import last_weeks
from planning.restraint.answers import NOT_NOW, well_of
from planning.results.message import to_patient
from planning.results.plan import Change, ItemKind, Plan, Reason, Recommendation
from planning.safety.call_when import call_when
from planning.safety.follow_up import follow_up
from planning.safety.remarks import remarks

MEANWHILE = Recommendation(
    key="meanwhile",
    kind=ItemKind.POUCH,
    change=Change.KEEP,
    text="Meanwhile: keep a pouch on, flat, soft and roomy; nothing that presses (no convexity, no "
    "belt or garment, no rigid plate, no wide tape)",
    because=(Reason("An emergency comes before any fitting; pressure can do harm.", (PRACTICE,)),),
    patient_text=to_patient("Keep a pouch on. Take off any belt."),
)
#: Said to the clinician alone: what the person wished for is on record there.
CARE_PLAN: Final = Recommendation(
    key="care_plan",
    kind=ItemKind.REFER,
    change=Change.START,
    text="Last weeks of life: what is done now follows the agreed care plan; the palliative team "
    "hears of it at once",
    because=(Reason("Last weeks of life: comfort leads.", (PRACTICE,), "person.has"),),
)
#: Where the colour of the stoma is watched.
_COLOUR: Final = ("necrosis", "dusky", "lifeless", "slough", "sunken", "unseen", "pale",
                  "prolapse_trapped")  # fmt: skip


def meanwhile(situation: RankedFacts) -> Recommendation:
    """What is worn on the way; a clear pouch only where the colour matters."""
    if not situation.flagged(*_COLOUR):
        return MEANWHILE
    return replace(MEANWHILE, text=MEANWHILE.text.replace("roomy;", "roomy, clear if at hand;"))


def _care_plan(situation: RankedFacts) -> tuple[Recommendation, ...]:
    return (CARE_PLAN,) if last_weeks(situation.facts) else ()


def emergency_plan(situation: RankedFacts) -> Plan:
    """Referral and what is safe in the meantime; no supplies, no sizes, no steps."""
    flag = situation.flags[0]
    return Plan(
        rule_set=RULE_SET,
        urgency=situation.urgency,
        headline=f"Emergency. {flag.text}: {flag.refer_to}, now",
        leave_alone=False,
        red_flags=situation.flags,
        causes=situation.causes,
        needs=(),
        recommendations=(
            meanwhile(situation),
            *on_the_way(situation),
            *_care_plan(situation),
            *referrals(situation),
        ),
        runner_up=None,
        dimensions=stoma_size(situation.facts),
        steps=(),
        quantities=(),
        follow_up=follow_up(situation, None),
        call_when=call_when(situation, presses=False),
        notices=(*remarks(situation.facts), *notices(situation)),
        missing=missing(situation.facts),
        supplies=(),
        suggested_codes=suggested_codes(situation),
        well=well_of(situation),
        fit=NOT_NOW,
    )
