"""Two answers, told apart: is the person well, and does the pouching system fit?"""

from __future__ import annotations

from typing import Final

from planning.facts.missing import missing
from planning.ranked_facts import RankedFacts
from planning.results.plan import Fit, FitAnswer, Urgency, Well
from planning.supplies.system_choice import SystemChoice

#: A mucocutaneous separation that is not agreed as known: its skin is not sound.
_GAP: Final = ("separation", "separation_deep", "separation_shallow")
_NO_SIGN: Final = "No danger sign among what was asked and looked at"


def well_of(situation: RankedFacts) -> Well:
    """From the danger signs alone; whatever was not asked is named, never assumed to be well."""
    if situation.flags:
        flag = situation.flags[0]
        return Well(situation.urgency, f"{flag.text}: {flag.refer_to}", ())
    asked = tuple(
        r.text for r in missing(situation.facts) if r.finding.startswith("output.present")
    )
    text = _NO_SIGN if not asked else f"{_NO_SIGN}; not everything was asked"
    return Well(Urgency.ROUTINE, text, asked)


def fit_of(chosen: SystemChoice) -> Fit:
    """From the pouching system alone."""
    changed = chosen.corrections | chosen.today
    count = len(changed)
    facts = chosen.situation.facts
    if chosen.corrections:
        return Fit(FitAnswer.CORRECT, "Something worn does harm: correct that first", count)
    if chosen.today:
        return Fit(FitAnswer.CHANGE, "One step today; the rest waits", count)
    if chosen.waits:
        return Fit(FitAnswer.WATCH, "The last change is still on trial: continue with it", 0)
    if facts.occasional:
        text = "It seals, but for one leak: keep it, and log the next ten barriers"
        return Fit(FitAnswer.WATCH, text, 0)
    if facts.works and not chosen.situation.flagged(*_GAP):
        return Fit(FitAnswer.FITS, "It seals and the skin is sound: keep it as it is", 0)
    if facts.troubled:
        return Fit(
            FitAnswer.WATCH, "It leaks or the skin is sore: no other supply is called for", 0
        )
    if facts.works is None:
        return Fit(FitAnswer.CANNOT_TELL, "Used barrier or skin was not looked at", 0)
    return Fit(FitAnswer.WATCH, "The system stays; the skin is treated and looked at again", 0)


NOT_NOW: Final = Fit(FitAnswer.NOT_NOW, "Not judged now: the danger goes first", 0)
