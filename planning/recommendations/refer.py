"""Who must look, and what the plan could not do by itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Condition, Material
from planning.ranked_facts import RankedFacts
from planning.results.message import Words, to_patient
from planning.results.plan import Change, ItemKind, Need, Reason, Recommendation, RedFlag, Urgency
from planning.supplies.catalogue import CONVEX
from planning.supplies.hazards import HAZARDS
from planning.supplies.system_choice import SystemChoice
from planning.supplies.trials import hurt

#: How soon, in words.
WHEN: Final[Mapping[Urgency, str]] = {
    Urgency.EMERGENCY: "now, as an emergency",
    Urgency.SAME_DAY: "the same day",
    Urgency.TELEPHONE: "by telephone today, and record the answer",
    Urgency.DAYS: "within 3 days",
    Urgency.TWO_WEEKS: "within 2 weeks",
    Urgency.ROUTINE: "at the next visit",
}

#: Hazards that a recorded assessment of convexity lifts.
_ASSESSABLE = ("early", "surgery_date_unknown")


def referrals(
    situation: RankedFacts, when: Mapping[Urgency, str] = WHEN
) -> Iterator[Recommendation]:
    """One referral for every red flag. ``when``: each urgency in words."""
    for flag in situation.flags:
        yield _referral(flag, when[flag.urgency])


def _referral(flag: RedFlag, when: str) -> Recommendation:
    return Recommendation(
        key=f"refer_{flag.key}",
        kind=ItemKind.REFER,
        change=Change.START,
        text=f"Refer to: {flag.refer_to}, {when}. {flag.text}. {flag.do}",
        because=flag.because,
        patient_text=flag.patient_text,
    )


def open_needs(chosen: SystemChoice) -> Iterator[Recommendation]:
    """What to ask of whom where no admissible supply meets a need."""
    for need in chosen.unmet:
        if need.key == "lift_rim":
            yield _lift(chosen, need)
        elif need.key == "treat_yeast":
            yield _yeast(chosen, need)
        elif need.key == "absorb_moisture" and _wants_help(chosen):
            yield _helper(chosen, need)


def _wants_help(chosen: SystemChoice) -> bool:
    """Nothing else forbids powder on this skin."""
    return chosen.barred.get("powder") == (HAZARDS["no_one_helps"].reason,)


def _helper(chosen: SystemChoice, need: Need) -> Recommendation:
    film = "" if chosen.situation.keeps_off(Material.PROTECTANT) else " and film"
    return _ask(
        need,
        f"Find who helps at the next changes (a carer, a nurse): the weeping skin wants "
        f"powder{film}, which one hand or poor sight does not manage alone",
        "Somebody will help you to treat the sore skin when you change it.",
    )


def _yeast(chosen: SystemChoice, need: Need) -> Recommendation:
    harmed = "antifungal_powder" in hurt(chosen.situation.facts.history)
    if harmed or chosen.situation.keeps_off(Material.POWDER):
        return _ask(
            need,
            "Ask the prescriber within 3 days how to treat the yeast without powder, which this "
            "skin must not have, and without a cream under the barrier; take a swab or scrape "
            "first",
            "A doctor will check the rash.",
        )
    return _ask(
        need,
        "Ask the prescriber within 3 days about an antifungal powder; take a swab or scrape first",
        "A doctor will check the rash before you get a special powder.",
    )


def _lift(chosen: SystemChoice, need: Need) -> Recommendation:
    reasons = list(dict.fromkeys(r for key in sorted(CONVEX) for r in chosen.barred.get(key, ())))
    if len([key for key in CONVEX if key not in chosen.barred]) > 0:
        text = "Every depth tried has leaked: ask the surgeon for an opinion"
        reasons.append(Reason("Convexity was tried and failed.", (PRACTICE,)))
    elif _assessment_opens(chosen):
        text = (
            "Convexity would lift the stoma but needs a specialist's assessment here: if you are "
            "that specialist, record it at this visit (Specialist assessment for convexity) "
            f"and the plan follows it; if not, ask for it; until then {_until_then(chosen)}"
        )
    else:
        text = (
            "Convexity would lift the stoma but must not be used while these reasons last: "
            f"{_until_then(chosen)}; where that does not seal, ask the surgeon for an opinion"
        )
    return _ask(need, text, None, tuple(reasons))


def _until_then(chosen: SystemChoice) -> str:
    """What may be done without a dome: with what this plan holds, and no more changes of a
    barrier on irradiated skin, which tears."""
    fillers = [name for key, name in (("ring", "the ring"), ("paste", "paste"))
               if key in chosen.supplies]  # fmt: skip
    parts = [f"fill to skin level with {fillers[0]}"] if fillers else []
    if not chosen.situation.facts.has(Condition.RADIOTHERAPY_ABDOMEN):
        parts.append("change earlier")
    return " and ".join(parts) or "keep to the soft flat barrier"


def _assessment_opens(chosen: SystemChoice) -> bool:
    """With a specialist's assessment on record, some convex barrier could be chosen."""
    lifted = [HAZARDS[key].reason for key in _ASSESSABLE]
    return any(set(chosen.barred.get(key, ())) <= set(lifted) for key in CONVEX)


def _ask(
    need: Need, text: str, patient_text: Words | None, more: tuple[Reason, ...] = ()
) -> Recommendation:
    return Recommendation(
        key=f"open_{need.key}",
        kind=ItemKind.REFER,
        change=Change.START,
        text=text,
        because=(*need.because, *more),
        need_keys=(need.key,),
        patient_text=to_patient(patient_text),
    )
