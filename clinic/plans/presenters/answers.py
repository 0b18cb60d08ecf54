"""The plan's two answers in words: is the person well, and does the pouch fit?"""

from __future__ import annotations

from dataclasses import dataclass

from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency
from planning import Plan

WELL = "Is the person well?"
FIT = "Does the pouch fit?"
#: In place of a danger that the clinician dropped.
NOT_TAKEN_UP = "A danger sign was named and not taken up"


@dataclass(frozen=True)
class Answer:
    """``urgency`` and ``tag``: of a danger, "" where there is none. ``open``: danger questions
    without an answer."""

    question: str
    text: str
    urgency: str = ""
    tag: str = ""
    likely: str = ""
    open: tuple[str, ...] = ()


def answers_of(plan: Plan) -> tuple[Answer, ...]:
    """Both, the person first; () for a plan made before it answered them apart."""
    if plan.well is None or plan.fit is None:
        return ()
    danger = bool(plan.red_flags)
    return (
        Answer(
            WELL,
            plan.well.text,
            urgency=plan.well.urgency.value if danger else "",
            tag=str(Urgency(plan.well.urgency.value).label) if danger else "",
            open=plan.well.open,
        ),
        Answer(FIT, plan.fit.text, likely=_likely(plan)),
    )


def _likely(plan: Plan) -> str:
    """The likeliest cause of the trouble, which is the headline of a plan without a danger."""
    known = any(cause.score > 0 for cause in plan.causes.causes)
    return plan.headline if known and not plan.red_flags and not plan.leave_alone else ""


def answers_for_colleagues(
    decided: DecidedPlan, *, asked: Urgency | None = None
) -> tuple[str, ...]:
    """Both as lines of a letter, without a danger that was dropped. ``asked``: how soon the letter
    asks somebody to look; where that is sooner than the danger's own time, it is said here, too, so
    that a page names one time. A danger that is more urgent keeps its own."""
    return tuple(
        f"{one.question} {_sentence(_decided_text(one, decided, asked))}"
        for one in answers_of(decided.plan)
    )


def _decided_text(answer: Answer, decided: DecidedPlan, asked: Urgency | None) -> str:
    if not answer.urgency:
        return " ".join((_sentence(answer.text), *answer.open))
    pairs = zip(decided.plan.red_flags, decided.flags, strict=True)
    standing = [flag for flag, one in pairs if one.choice != Choice.DROPPED]
    if not standing:
        return NOT_TAKEN_UP
    flag = standing[0]
    own = Urgency(flag.urgency.value)
    soonest = min(asked or own, own, key=list(Urgency).index)
    return f"No. {flag.text} ({soonest.label.lower()})"


def _sentence(text: str) -> str:
    return text if text.endswith((".", "?", "!")) else f"{text}."
