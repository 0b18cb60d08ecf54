"""Bowel that rests gives mucus: usual, and its silence means nothing."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Discharge
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice

_ALARMS: Final = (Discharge.PUS, Discharge.BLOOD, Discharge.STOOL_AGAIN)
_USUAL: Final = (Discharge.MUCUS, Discharge.OLD_STOOL_ONCE)


def _rests(chosen: SystemChoice) -> bool:
    findings = chosen.situation.facts.findings
    given = findings.output.discharge
    beside = any(other.rests for other in findings.other_stomas or ())
    return given not in _ALARMS and (beside or given in _USUAL)


ROWS: Final = (
    Situation(
        "mucus_explained",
        "Mucus explained, a small dressing or cap",
        "bowel that rests gives mucus or one old plug, or a mucous fistula is on record, without "
        "blood, pus or stool again",
        _rests,
        "Mucus and one old plug are usual; a small dressing or cap is enough, and its silence is "
        "no blockage. Blood, pus, pain or fever: the same day; stool again: surgeon within 3 days",
        "The bowel left behind rests.",
        (PRACTICE,),
        "The bowel that rests still makes mucus: a small dressing is enough. Call us if blood, "
        "pus or stool comes from it, or it hurts.",
        "output.discharge",
    ),
)
