"""The statistics in words, each whole on its own; too few data says so instead of a number."""

from __future__ import annotations

from collections.abc import Iterator

from planning.course.channels import (
    BURDEN,
    LENGTH,
    PROTRUSION,
    WIDTH,
    Channel,
    length_of,
    width_of,
)
from planning.course.errors import MeasuringErrors, UsedError, amount
from planning.course.number_words import count, day_words, measure, number, sentence
from planning.course.periods import Period, Wear, in_order, wear_in
from planning.course.real_change import Error, fixed, in_window, sem_between, slope
from planning.course.record import Course
from planning.course.results import Figure, Series
from planning.course.skin import damaged
from planning.course.too_little_wear import left_out_words
from planning.evidence.thresholds import (
    COURSE_WINDOW,
    SHRINKS_DAYS,
    WEAR_COMPARED,
)
from planning.statistics.error import smallest_detectable_change
from planning.statistics.healing import Healing, healing
from planning.statistics.rates import rate_per_week
from planning.statistics.shrinkage import Shrinkage, Sized, shrinkage
from planning.statistics.survival import Estimate, Quantile, kaplan_meier
from planning.statistics.too_few import TooFew

_WEEK = 7.0
_DAYS = WEAR_COMPARED.value


def figures(course: Course, drawn: Series) -> tuple[Figure, ...]:
    """Wear, leaks, slopes and healing of ``course``; ``drawn``: its series."""
    course = in_order(course)
    return (
        *_worn(course),
        _slope(PROTRUSION, drawn, fixed(course.errors.height.sem)),
        _slope(LENGTH, drawn, fixed(course.errors.size.sem)),
        _slope(WIDTH, drawn, fixed(course.errors.size.sem)),
        _slope(BURDEN, drawn, course.errors.of_area.between),
        _errors(course.errors),
        _healing(course),
        *_shrinkage(course),
    )


# --- wear and leaks -------------------------------------------------------------------------
def _worn(course: Course) -> tuple[Figure, ...]:
    """Over the whole log, and since the current plan where that differs."""
    out = _of_period(course, Period(None, None), "", "")
    changed = [visit.day for visit in course.visits if visit.changed]
    if course.worn is None or not changed:
        return out
    since = Period(changed[-1], None)
    if all(since.holds(worn) for worn in course.worn):
        return out
    return out + _of_period(course, since, "_now", f" since {day_words(changed[-1])}")


def _of_period(course: Course, period: Period, key: str, when: str) -> tuple[Figure, ...]:
    wear = wear_in(course, period)
    return (
        Figure(f"wear{key}", f"Wear{when}", _survival(wear), ("kaplan1958/curve",)),
        Figure(f"leaks{key}", f"Leaks{when}", _rate(wear), ("garwood1936/exact",)),
    )


def _survival(wear: Wear | None) -> str:
    if wear is None:
        return "No wear log was kept."
    curve = kaplan_meier(wear.days, wear.failed)
    if isinstance(curve, TooFew):
        return f"Wear: {curve.words}{left_out_words(wear, '; {}')}."
    return (
        f"Median time to failure {_quantile(curve.median)}; {_share(curve.at(_DAYS))}. "
        f"{count(curve.observed, 'barrier')}, {curve.failed} failed (leaked, fell off, or "
        f"itched or hurt){left_out_words(wear, '; {}')}."
    )


def _quantile(median: Quantile) -> str:
    if median.value is None:
        low = "" if median.low is None else f" (95 % interval from {number(median.low)} days)"
        return f"not reached{low}"
    low = "?" if median.low is None else number(median.low)
    high = "not reached" if median.high is None else number(median.high)
    return f"{number(median.value)} days (95 % interval {low} to {high})"


def _share(held: Estimate | None) -> str:
    if held is None:
        return f"none was watched for {_DAYS:g} days"
    text = f"{number(100 * held.value, 0)} % held longer than {_DAYS:g} days"
    limits = [number(100 * limit, 0) for limit in (held.low, held.high) if limit is not None]
    return f"{text} (95 % interval {' to '.join(limits)} %)" if limits else text


def _rate(wear: Wear | None) -> str:
    if wear is None:
        return "No wear log was kept."
    rate = rate_per_week(wear.leaks, wear.exposure)
    if isinstance(rate, TooFew):
        return f"Leaks: {rate.words}."
    return (
        f"{number(rate.per_week, 2)} a week (95 % interval {number(rate.low, 2)} to "
        f"{number(rate.high, 2)}): {count(rate.events, 'leak')} in {number(rate.days)} days of "
        f"wear{left_out_words(wear, '; {}')}."
    )


# --- slopes ---------------------------------------------------------------------------------
def _slope(channel: Channel, drawn: Series, error: Error) -> Figure:
    sources = ("sen1968/slope", "bland1986/error", "design_value")
    key, label, unit = f"slope_{channel.key}", channel.said.capitalize(), channel.unit
    recent = in_window(drawn.of(channel.key))
    found = slope(recent)
    if isinstance(found, TooFew):
        text = f"Slope of the last {number(COURSE_WINDOW.value)} days: {found.words}."
        return Figure(key, label, text, sources)
    low, high = found.low * _WEEK, found.high * _WEEK
    least = smallest_detectable_change(sem_between(recent[0], recent[-1], error))
    text = (
        f"{_signed(found.per_day * _WEEK)} {unit} a week "
        f"(95 % interval {_signed(low)} to {_signed(high)}), {_direction(low, high)}: "
        f"{found.n} values from {day_words(recent[0].day)} to {day_words(recent[-1].day)}. "
        f"Between two visits less than {measure(least, unit)} is within measurement error."
    )
    return Figure(key, label, text, sources)


def _signed(value: float) -> str:
    text = number(value, 2)
    return f"+{text}" if round(value, 2) > 0 else text


def _direction(low: float, high: float) -> str:
    if high < 0:
        return "falling"
    return "rising" if low > 0 else "no clear direction"


def _errors(errors: MeasuringErrors) -> Figure:
    """Which error each judgement over time is held against."""
    words = "; ".join(
        f"{name} {amount(used.measure, used.sem)}, {used.words}" for name, used in _used(errors)
    )
    text = f"Standard error of one reading, two nurses: {words}."
    return Figure("measuring_error", "Measuring error", text, ("bland1986/error", "design_value"))


def _used(errors: MeasuringErrors) -> tuple[tuple[str, UsedError], ...]:
    return ("size", errors.size), ("protrusion", errors.height), ("damaged skin", errors.area)


# --- healing and shrinkage ------------------------------------------------------------------
def _healing(course: Course) -> Figure:
    looked = [(visit.day, damaged(visit.findings)) for visit in course.visits]
    spells = healing([(day, None if sore is None else float(sore)) for day, sore in looked])
    if all(sore is None for _, sore in looked):
        text = "Skin was not looked at."
    elif not spells:
        text = "Intact whenever it was looked at."
    else:
        text = _spell(spells[-1])
    return Figure("healing", "Time to healed skin", text, ("design_value",))


def _spell(last: Healing) -> str:
    later = f"{count(last.days, 'day')} later"
    if last.healed:
        return f"Damaged on {day_words(last.start)}, seen healed {later}."
    if not last.days:
        return f"Damaged on {day_words(last.start)}, not looked at since."
    return f"Damaged since {day_words(last.start)}, still damaged {later}."


def _shrinkage(course: Course) -> Iterator[Figure]:
    """Only where it was measured in the weeks in which a new stoma shrinks, and only of adults."""
    if course.young:
        return
    sizes = [
        Sized(visit.day, length, width)
        for visit in course.visits
        if (length := length_of(visit.findings.measurement))
        and (width := width_of(visit.findings.measurement))
    ]
    found = shrinkage(sizes, course.surgery)
    if found is None:
        return
    sources = (SHRINKS_DAYS.source, "design_value")
    yield Figure("shrinkage", "Size since surgery", _shrunk(found), sources)


def _shrunk(found: Shrinkage | TooFew) -> str:
    if isinstance(found, TooFew):
        return sentence(found.words)
    settled = (
        "not settled yet"
        if found.settled_on is None
        else f"settled by {day_words(found.settled_on)}"
    )
    return (
        f"{number(100 * found.share, 0)} % of the first width across "
        f"({number(found.first.across_mm)} mm on {day_words(found.first.day)}, "
        f"{number(found.latest.across_mm)} mm on {day_words(found.latest.day)}); {settled}."
    )
