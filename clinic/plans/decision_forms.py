"""What the clinician does with each thing the plan says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from hashlib import sha256
from typing import Any

from django import forms
from django.conf import settings
from django.http import QueryDict
from django.utils import timezone

from clinic import formatting
from clinic.fields import ClockField
from clinic.plans.decided_item import is_kept
from clinic.plans.models import Choice, Decision
from clinic.visits.chart import pending_of
from clinic.visits.models import Assessment
from planning import Plan
from planning.results.plan import Change, Recommendation

FOLLOW_UP = "follow_up"
REFERRAL = "refer:"
#: What is written to a decision besides the choice.
WRITTEN = ("changed_to", "reason", "at")


@dataclass(frozen=True)
class Decidable:
    """One thing to accept, change or drop. ``source`` is the plan's own item."""

    key: str
    text: str
    source: Any

    @property
    def about(self) -> str:
        """Names these very words: posted back, it says what the clinician had before their
        eyes when they decided."""
        return sha256(self.text.encode()).hexdigest()[:16]


def decidables(plan: Plan, assessment: Assessment) -> list[Decidable]:
    """Red flags, then what changes, then what is kept, then the next visit."""
    flags = [Decidable(f"{REFERRAL}{f.key}", f.text, f) for f in plan.red_flags]
    ordered = sorted(own_recommendations(plan), key=lambda item: item.change is Change.KEEP)
    items = [Decidable(r.key, r.text, r) for r in ordered]
    due = formatting.day(planned_day(plan, assessment))
    follow_up = Decidable(FOLLOW_UP, f"{plan.follow_up.text} ({due})", plan.follow_up)
    return [*flags, *items, follow_up]


def own_recommendations(plan: Plan) -> list[Recommendation]:
    """Without those that only repeat a red flag: a flag is decided on once."""
    of_flags = {f"refer_{flag.key}" for flag in plan.red_flags}
    return [item for item in plan.recommendations if item.key not in of_flags]


def planned_day(plan: Plan, assessment: Assessment) -> date:
    """The day the plan asks to see the person again, moved off days the clinic is closed."""
    visit_day = timezone.localdate(assessment.visit.happened_at)
    return open_day(visit_day + timedelta(days=plan.follow_up.in_days), after=visit_day)


def open_day(day: date, *, after: date) -> date:
    """The last open day up to ``day``, or the first one past it where none lies ``after``.

    *Within so many days* is kept by coming earlier, never later, while that can be.
    """
    closed = settings.CLINIC_CLOSED_WEEKDAYS
    earlier = day
    while earlier.weekday() in closed:
        earlier -= timedelta(days=1)
    if earlier > after:
        return earlier
    while day.weekday() in closed:
        day += timedelta(days=1)
    return day


class DecisionForm(forms.Form):
    """Accept; or change or drop, with a reason."""

    about = forms.CharField(widget=forms.HiddenInput, required=False)
    choice = forms.ChoiceField(
        label="Decision", choices=Choice.choices, required=False, widget=forms.RadioSelect
    )
    changed_to = forms.CharField(label="What instead", max_length=500, required=False)
    reason = forms.CharField(label="Why", max_length=500, required=False)

    def __init__(
        self,
        decidable: Decidable,
        stored: Decision | None,
        data: QueryDict | None,
        visit_day: date,
    ) -> None:
        self.decidable, self.stored, self.visit_day = decidable, stored, visit_day
        self.topic = decidable.text
        #: Decided about other words than the plan says now: ask again, keep what was written.
        self.stale = stored is not None and stored.text != decidable.text
        prefix = f"decision-{decidable.key}"
        initial = {"about": decidable.about, **_remembered(stored, stale=self.stale)}
        posted_about = data.get(f"{prefix}-about") if data is not None else None
        #: Posted while other words stood there: nothing is decided, what was written is kept.
        self.moved_on = posted_about is not None and posted_about != decidable.about
        if data is not None and self.moved_on:
            initial |= {n: data.get(f"{prefix}-{n}", "") for n in WRITTEN}
            initial["choice"] = ""
        #: Whether the clinician had these words before their eyes.
        self.seen = posted_about == decidable.about
        super().__init__(data if self.seen else None, prefix=prefix, initial=initial)
        if decidable.key == FOLLOW_UP:
            self.fields["changed_to"].label = "Another date"
            self.fields["changed_to"].widget = forms.DateInput(attrs={"type": "date"})
            self.fields["at"] = ClockField(label="Time, where one is agreed", required=False)

    def clean(self) -> dict[str, Any]:
        given = self.cleaned_data
        given.pop("about", None)
        if given.get("choice") == Choice.CHANGED and not given.get("changed_to"):
            self.add_error("changed_to", "Write what instead.")
        if given.get("choice") in {Choice.CHANGED, Choice.DROPPED} and not given.get("reason"):
            self.add_error("reason", "Write why, in a few words.")
        if self.decidable.key == FOLLOW_UP:
            self._clean_visit(given)
        return given

    def _clean_visit(self, given: dict[str, Any]) -> None:
        if given.get("choice") == Choice.CHANGED:
            self._clean_date(given.get("changed_to", ""))
        if given.get("choice") == Choice.DROPPED:
            given["at"] = None  # no visit, no time
        if given.get("at") and not given.get("choice"):
            self.add_error("choice", "Accept or change the next visit, so that its time is kept.")

    def _clean_date(self, typed: str) -> None:
        try:
            day = date.fromisoformat(typed)
        except ValueError:
            if typed:
                self.add_error("changed_to", "Write the date like 2024-05-31.")
            return
        if day <= self.visit_day:
            self.add_error("changed_to", "The next visit must come after this one.")

    @property
    def decided(self) -> bool:
        """Whether a decision about the plan's present words is stored."""
        return self.stored is not None and not self.stale

    @property
    def stands(self) -> bool:
        """Kept as it is worn, with nothing else begun about it: it needs no decision of its own,
        the signature accepts it together with the others."""
        begun = any(self[name].value() for name in ("choice", "changed_to", "reason"))
        return is_kept(self.decidable.source) and not self.decided and not begun


def _remembered(stored: Decision | None, *, stale: bool) -> dict[str, Any]:
    if stored is None:
        return {}
    return {
        "choice": "" if stale else stored.choice,
        "changed_to": stored.changed_to,
        "reason": stored.reason,
        "at": stored.at,
    }


class Decisions:
    """Every decision form of one assessment, in the plan's order."""

    def __init__(
        self, plan: Plan, assessment: Assessment, *, data: QueryDict | None = None
    ) -> None:
        stored = {decision.key: decision for decision in assessment.decisions.all()}
        pending = {} if data is not None else pending_of(assessment)
        self.assessment = assessment
        visit_day = timezone.localdate(assessment.visit.happened_at)
        self.forms = [
            DecisionForm(
                item,
                stored.get(item.key),
                data if data is not None else pending.get(f"decision-{item.key}"),
                visit_day,
            )
            for item in decidables(plan, assessment)
        ]
        self.by_key = {form.decidable.key: form for form in self.forms}

    def __iter__(self) -> Iterator[DecisionForm]:
        return iter(self.forms)

    def undecided(self) -> list[Decidable]:
        """What asks for a decision of its own: not decided, or decided about other words."""
        return [form.decidable for form in self.forms if not form.decided and not form.stands]

    def kept(self) -> list[Decidable]:
        """What the signature accepts together: kept as it is worn, and not decided otherwise."""
        return [form.decidable for form in self.forms if form.stands]

    def errors(self) -> dict[str, list[str]]:
        """Field's HTML name -> messages."""
        return {
            form.add_prefix(name): [str(m) for m in messages]
            for form in self.forms
            if form.is_bound
            for name, messages in form.errors.items()
        }
