"""What was tried for which need, and what came of it: by plans, and before this record.

Nothing here reaches the planner: a plan is made of one stoma's findings and its own history.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Final

from django.core.cache import cache

from clinic.measures.group import EVERYONE, Group
from clinic.measures.measure_types import HIDDEN, Figure, Line, Measure, of_share
from clinic.measures.outside import nothing_hidden, outside
from clinic.measures.period import Period
from clinic.measures.sql import counted
from clinic.plans.tried_by_need import RULES, Trial, need_words, supply_words, trials_of
from clinic.trials.choices import Feel, Outcome, Profile, Supply
from planning.statistics.incidence import per_hundred

HELPED = "helped"
#: What is said of each trial of a plan; the last is no answer, so it is in no share.
VERDICTS = {
    HELPED: "Helped",
    "no_different": "No different",
    "worse": "Worse",
    "cannot_tell": "No difference shown yet",
}
OUTCOMES = dict(Outcome.choices)
NOT_SAID: Final = ("cannot_tell", Outcome.UNKNOWN.value)
NOT_JUDGED: Final = Figure("none yet")
#: Judging takes some hundredths of a second a stoma, so no page judges more at once (design
#: value); what is judged is kept for the day, by what is on record of the stoma.
AT_ONCE: Final = 150
_A_DAY: Final = 24 * 60 * 60

#: Stomas with a plan of the period that began something, and what their record is like: its
#: newest plan, and the newest change of a visit, of the wear log and of the stoma itself.
_STOMAS = """
WITH /* chosen */, begun AS (
    SELECT DISTINCT a.stoma_id
    FROM plans_plansnapshot p
    JOIN visits_assessment a ON a.id = p.assessment_id
    JOIN visits_visit v ON v.id = a.visit_id
    JOIN chosen ON chosen.id = a.stoma_id
    WHERE v.happened_at >= %(begins)s AND v.happened_at < %(ends)s
        AND jsonb_path_exists(coalesce(p.with_choices, p.plan),
            '$.recommendations[*] ? (@.change == "start" || @.change == "change")')
), changes AS (
    SELECT a.stoma_id, 'plan' AS of, max(p.id) AS newest
    FROM plans_plansnapshot p JOIN visits_assessment a ON a.id = p.assessment_id GROUP BY 1
    UNION ALL SELECT stoma_id, 'log', max(pgh_id) FROM visits_wornbarrierevent GROUP BY 1
    UNION ALL SELECT id, 'stoma', max(pgh_id) FROM patients_stomaevent GROUP BY 1
    UNION ALL SELECT a.stoma_id, 'worn', max(e.pgh_id)
    FROM visits_wearepisodeevent e JOIN visits_assessment a ON a.id = e.assessment_id GROUP BY 1
    UNION ALL SELECT a.stoma_id, 'visit', max(e.pgh_id)
    FROM visits_visitevent e JOIN visits_assessment a ON a.visit_id = e.id GROUP BY 1
)
SELECT stoma_id, string_agg(of || newest, ' ' ORDER BY of)
FROM begun JOIN changes USING (stoma_id) GROUP BY 1 ORDER BY 1
"""
_EARLIER = """
WITH /* chosen */
SELECT t.stoma_id, t.outcome, t.profile, t.feel, t.supplies
FROM trials_earliertrial t JOIN chosen ON chosen.id = t.stoma_id
"""


@dataclass
class Tally:
    """Trials of one thing by what was said of them, each with the stoma it was tried on."""

    stomas: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))

    def add(self, said: str, stoma: int) -> None:
        self.stomas[said].append(stoma)

    def many(self, said: str) -> int:
        return len(self.stomas.get(said, ()))

    def people(self, said: str) -> int:
        """Stomas, each once: small numbers are those of stomas, not of trials."""
        return len(set(self.stomas.get(said, ())))

    @property
    def all(self) -> int:
        return sum(map(len, self.stomas.values()))


#: What was tried -> what became of it. The key of a plan's trial is ``need supply``.
Tallies = Mapping[str, Tally]


@dataclass(frozen=True)
class Tried:
    """``judged`` of ``stomas`` are in ``plans``; the rest come as the page is opened again."""

    plans: Tallies
    earlier: Tallies
    judged: int
    stomas: int

    @property
    def whole(self) -> bool:
        return self.judged == self.stomas


def tried(period: Period, today: date, group: Group = EVERYONE, *, go_on: bool = True) -> Tried:
    """As many queries for any number of stomas. ``go_on``: judge those that are not judged yet, so
    many at once; else only where none is."""
    states = dict(counted(_STOMAS, period, group))
    name = f"tried-{RULES}-{period.since}-{period.until}-{today}"
    kept: dict[int, tuple[str, list[Trial]]] = cache.get(name) or {}
    known = {pk for pk, state in states.items() if pk in kept and kept[pk][0] == state}
    if go_on or not known:
        next_ones = [pk for pk in states if pk not in known][:AT_ONCE]
        kept |= {pk: (states[pk], []) for pk in next_ones}
        for trial in trials_of(next_ones, period.since, period.until, today):
            kept[trial.stoma][1].append(trial)
        if next_ones:
            cache.set(name, kept, _A_DAY)
        known |= set(next_ones)
    plans: dict[str, Tally] = defaultdict(Tally)
    for pk in sorted(known):
        for trial in kept[pk][1]:
            plans[f"{trial.need} {trial.supply}"].add(trial.verdict, trial.stoma)
    return Tried(plans, _earlier(period, group), len(known), len(states))


def _earlier(period: Period, group: Group) -> Tallies:
    found: dict[str, Tally] = defaultdict(Tally)
    for stoma, outcome, profile, feel, supplies in counted(_EARLIER, period, group):
        for what in [*([f"barrier-{profile}-{feel}"] if profile else []), *supplies]:
            found[what].add(outcome, stoma)
    return found


def stomas_behind(found: Tried, of: str, what: str, said: str) -> list[int] | None:
    """The stomas of one count; None where there is no such count."""
    tallies = found.plans if of == "tried" else found.earlier
    if what not in tallies or said not in words_of(of):
        return None
    return sorted(set(tallies[what].stomas.get(said, ())))


def words_of(of: str) -> Mapping[str, str]:
    """What is said of a plan's trial, or of one from before this record."""
    return VERDICTS if of == "tried" else OUTCOMES


def what_words(of: str, what: str) -> str:
    """What was tried, and for which need where that is known."""
    if of == "tried":
        need, _, supply = what.partition(" ")
        return f"{need_words(need)}: {supply_words(supply)}"
    kind, *barrier = what.split("-")
    if kind == "barrier" and len(barrier) == 2:
        profile, feel = barrier
        gives = str(Feel(feel).label).lower() if feel else "feel not known"
        return f"{Profile(profile).label} barrier, {gives}"
    return str(Supply(what).label)


def by_need(found: Tallies) -> Measure:
    """One line a need and supply, the one tried most first."""
    return Measure(
        key="tried",
        title="What plans tried, by need",
        rule=(
            "A supply that a plan signed in these dates began for a need, as it was accepted; "
            "helped, worse or no different as the trend page of that stoma judges the plan. The "
            "share is of the trials with one of these three answers, with the exact 95 % interval."
        ),
        not_counted=(
            "No difference shown yet is no answer: not a failure, and in no share. Plans that "
            "kept what was worn; what was changed in words of one's own. A plan that began two "
            "supplies counts for both, as it is not known which did it. Supplies are chosen for "
            "how difficult a stoma is: this compares no supplies with one another. Several trials "
            "of one stoma resemble one another: the true interval is wider."
        ),
        source="Clopper and Pearson 1934; how a plan is judged: on the page of each stoma",
        about="Need and supply",
        count_columns=("Tried", "Judged", *VERDICTS.values()),
        figure_columns=("Helped, of 100 judged",),
        units=("per 100 judged",),
        lines=_lines("tried", found),
    )


def before_record(found: Tallies) -> Measure:
    """One line a supply; for which need it was tried is not on record."""
    return Measure(
        key="earlier",
        title="Tried before this record",
        rule=(
            "Trials from before this record, as the patient, a letter or a colleague says, "
            "whatever the months above. Of a trial of several things each is counted. The share "
            "is of the trials whose outcome is known, with the exact 95 % interval."
        ),
        not_counted=(
            "Outcomes that are not known: in no share. For which need it was tried is not on "
            "record. What is remembered is what stood out, and what is typed in is chosen."
        ),
        source="Clopper and Pearson 1934",
        about="Supply",
        count_columns=("Tried", "Outcome known", *OUTCOMES.values()),
        figure_columns=("Helped, of 100 known",),
        units=("per 100 known",),
        lines=_lines("earlier", found),
    )


def _lines(of: str, found: Tallies) -> tuple[Line, ...]:
    order = sorted(found.items(), key=lambda one: (-one[1].all, what_words(of, one[0])))
    return tuple(_line(of, what, tally) for what, tally in order)


def _line(of: str, what: str, tally: Tally) -> Line:
    sayings = tuple(words_of(of))
    numbers = [tally.many(said) for said in sayings]
    people = [tally.people(said) for said in sayings]
    judged = sum(n for said, n in zip(sayings, numbers, strict=True) if said not in NOT_SAID)
    share = of_share(per_hundred(tally.many(HELPED), judged)) if judged else NOT_JUDGED
    shown = nothing_hidden(people, outside(people))
    inside = (str(tally.all), str(judged), *map(str, numbers))
    return Line(
        what_words(of, what),
        inside if shown else (HIDDEN.value,) * len(inside),
        (share if shown else HIDDEN,),
        inside=(*inside, share.words),
        lists=("", "", *_asking(of, what, sayings)),
    )


def _asking(of: str, what: str, sayings: Iterable[str]) -> list[str]:
    return [f"of={of}&kind={what.replace(' ', '+')}&which={said}" for said in sayings]
