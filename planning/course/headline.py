"""The surgeon's minute: what is asked, what is dangerous, whether the last change helped, what
moved. Short sentences with figures, the most important first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planning.course.channels import BURDEN, LENGTH, OUTPUT, PROTRUSION, WIDTH, Channel
from planning.course.errors import MeasuringErrors
from planning.course.number_words import count, day_words, listed, measure, sentence
from planning.course.periods import in_order
from planning.course.real_change import Error, Move, fixed, moved, share_of_mean
from planning.course.record import Course, EventKind
from planning.course.results import CourseFlag, Moved, PlanOutcome, Series, Verdict
from planning.evidence.thresholds import OUTPUT_SEM
from planning.inputs.findings import StomaKind

UNDER_16 = (
    "Under 16: heights and output are not compared with limits for adults; a paediatric stoma team "
    "judges them."
)


def headline(
    course: Course,
    drawn: Series,
    judged: Sequence[PlanOutcome],
    raised: Sequence[CourseFlag],
) -> tuple[str, ...]:
    """Sentences in order: urgent flags, open questions, the last change, other flags, moves; last,
    that figures for adults are left out where a visit was made under 16."""
    course = in_order(course)
    if not course.visits:
        return ("No visit has been signed yet.",)
    urgent = [flag for flag in raised if flag.urgency is not None]
    others = [flag for flag in raised if flag.urgency is None]
    return (
        *_closed(course),
        *(_flagged(flag) for flag in urgent),
        *_asked(course),
        *last_change(judged),
        *(_flagged(flag) for flag in others),
        *_moves(course.errors, drawn, raised),
        *((UNDER_16,) if drawn.under_16 else ()),
    )


def _closed(course: Course) -> Iterator[str]:
    if course.closed is not None:
        yield f"This stoma was closed on {day_words(course.closed)}."


def _flagged(flag: CourseFlag) -> str:
    return f"{sentence(flag.text)} {sentence(flag.figures)}"


def _asked(course: Course) -> Iterator[str]:
    """Questions without an answer, the oldest first."""
    for event in course.events:
        if event.kind is EventKind.REFERRAL and event.waits:
            days = (course.today - event.day).days
            waiting = f", no answer for {count(days, 'day')}" if days > 0 else ", no answer yet"
            yield f"Asked on {day_words(event.day)}{waiting}: {sentence(event.text)}"


def last_change(judged: Sequence[PlanOutcome]) -> tuple[str, ...]:
    """How the newest change did; while that is unknown, the one before it too."""
    changes = [outcome for outcome in judged if outcome.changed]
    if not changes:
        return ("No plan has changed anything so far.",)
    newest = _outcome(changes[-1], "The last change")
    if changes[-1].verdict is not Verdict.CANNOT_TELL or len(changes) == 1:
        return (newest,)
    return newest, _outcome(changes[-2], "The change before it")


def _outcome(outcome: PlanOutcome, what: str) -> str:
    return f"{what} ({day_words(outcome.day)}: {listed(outcome.changed)}): {outcome.text}"


def _watched(errors: MeasuringErrors) -> tuple[tuple[str, Channel, Error], ...]:
    """Channels that are watched, with the flag that says the same and the error of measuring."""
    size = fixed(errors.size.sem)
    return (
        ("retraction", PROTRUSION, fixed(errors.height.sem)),
        ("size", LENGTH, size),
        ("size", WIDTH, size),
        ("skin", BURDEN, errors.of_area.between),
    )


def moves(course: Course, drawn: Series, raised: Sequence[CourseFlag]) -> tuple[Moved, ...]:
    """What moved beyond error: what a flag says first, the most urgent first. An output of urine is
    judged by no flag and is left out."""
    output = ("high_output", OUTPUT, share_of_mean(OUTPUT_SEM.value))
    urine = course.kind is StomaKind.UROSTOMY
    order = [flag.key for flag in raised]
    found = [
        (key, Moved(channel.key, move.since, move.latest))
        for key, channel, error in (*_watched(course.errors), *(() if urine else (output,)))
        if (move := moved(drawn.of(channel.key), error, channel.unit)) is not None
    ]
    found.sort(key=lambda one: order.index(one[0]) if one[0] in order else len(order))
    return tuple(one for _, one in found)


def _moves(errors: MeasuringErrors, drawn: Series, raised: Sequence[CourseFlag]) -> Iterator[str]:
    """What moved beyond error and is in no flag; else that nothing did."""
    told = {flag.key for flag in raised}
    still: list[str] = []
    for key, channel, error in _watched(errors):
        name, unit, points = channel.said, channel.unit, drawn.of(channel.key)
        move = moved(points, error, unit)
        if move is not None and key not in told:
            yield _moved(name, move)
        elif move is None and len(points) > 1:
            still.append(f"{name} ({measure(points[-1].value, unit)})")
    if still:
        have = "has" if len(still) == 1 else "have"
        yield sentence(f"{listed(tuple(still))} {have} not changed beyond measuring error")


def _moved(name: str, move: Move) -> str:
    return sentence(f"{name} {'rose' if move.up else 'fell'} {move.words}")
