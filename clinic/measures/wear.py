"""How long barriers hold, by profile; and how often they leak."""

from __future__ import annotations

from clinic.measures import small_numbers
from clinic.measures.barriers import Barriers, Worn
from clinic.measures.measure_types import (
    NO_DATA,
    Line,
    Measure,
    of_estimate,
    of_quantile,
    of_rate,
    unless_shown,
)
from clinic.visits.choices import Profile
from planning.statistics.incidence import source_of, wear_compared, wear_typing_error
from planning.statistics.rates import rate_per_week
from planning.statistics.survival import SurvivalCurve, kaplan_meier_counted

#: What its lists are called.
LISTS = {"all": "Barriers recorded", "failed": "A barrier failed"}
GROUPS = {**dict(Profile.choices), "": "Not recorded"}


def wear(worn: Worn) -> Measure:
    """One line a profile: stomas, barriers, half failed by, holding after three days."""
    after = f"{wear_compared().value:g}"
    return Measure(
        key="wear",
        title="How long barriers hold, by barrier profile",
        rule=(
            "Barriers put on in these dates, from signed visits and the wear log. A leak, itch or "
            "pain, or falling off is a failure; a planned change, or still on, shows only that "
            "it held that long (Kaplan-Meier, 95 % interval from the log-log band). Whole days."
        ),
        not_counted=(
            "Barriers not recorded; those in drafts; those recorded as worn longer than "
            f"{wear_typing_error().value:g} days (probably an error, "
            f"{small_numbers.count(worn.left_out)} left out); records that contradict one another, "
            f"such as a visit and the wear log ({small_numbers.count(worn.disputed)} left out). "
            "A barrier without a recorded end counts to the day it was last seen. "
            "Barriers of one patient resemble one another: the true interval is wider. Profiles "
            "are chosen for difficult stomas: this compares no products."
        ),
        source=(
            "Kaplan and Meier 1958; Kalbfleisch and Prentice 1980; "
            f"{after} days: {source_of(wear_compared())}"
        ),
        about="Profile",
        count_columns=("Stomas", "Stomas with a failure", "Barriers"),
        figure_columns=("Half failed by, days", f"Holding after {after} days, %"),
        units=("days", "%"),
        lines=tuple(
            _line(words, worn.by_profile.get(profile, Barriers()), profile)
            for profile, words in GROUPS.items()
        ),
    )


def leaks(worn: Worn) -> Measure:
    """One line: days worn, leaks, leaks a week."""
    return Measure(
        key="leaks",
        title="Leaks per week of wear",
        rule=(
            "Barriers as above that leaked or fell off, over the days all of them were worn, as "
            "leaks a week for one stoma. Interval: exact 95 %."
        ),
        not_counted=(
            "Leaks of unrecorded barriers. A barrier that came off on the day it was put on "
            "adds its leak but no day. Leaks of one patient come together: the true interval is "
            "wider."
        ),
        source="Garwood 1936",
        about="Barriers",
        count_columns=("Days worn", "Leaks"),
        figure_columns=("Leaks per week",),
        units=("per week",),
        lines=(_leak_line(worn.together),),
    )


def _line(words: str, group: Barriers, profile: str) -> Line:
    instead = unless_shown(group.stomas)
    counts = [small_numbers.count(group.stomas), instead.words, instead.words]
    if group.stomas >= small_numbers.LEAST_SHOWN:
        counts[1:] = small_numbers.some_of(group.stomas, group.failed), str(sum(group.counts))
    figures = (instead, instead)
    curve = kaplan_meier_counted(group.days, group.failures, group.counts)
    known = (NO_DATA, NO_DATA)
    if isinstance(curve, SurvivalCurve):
        known = (of_quantile(curve.median), of_estimate(curve.at(wear_compared().value)))
        if small_numbers.can_show(group.stomas, group.failed):
            figures = known
    numbers = (group.stomas, group.failed, sum(group.counts))
    return Line(
        words,
        tuple(counts),
        figures,
        inside=(*map(str, numbers), *(figure.words for figure in known)),
        lists=tuple(f"of=wear&kind={profile}&which={which}" for which in LISTS),
    )


def _leak_line(all_of_them: Barriers) -> Line:
    told = small_numbers.can_show(all_of_them.stomas, all_of_them.leaked)
    days, leaked = all_of_them.worn_days, all_of_them.leaks
    rate = of_rate(rate_per_week(leaked, days)) if all_of_them.stomas else NO_DATA
    inside = (str(days), str(leaked), rate.words)
    if not told:
        instead = unless_shown(all_of_them.stomas)
        return Line("All", (instead.words, instead.words), (instead,), inside=inside)
    return Line("All", inside[:2], (rate,))
