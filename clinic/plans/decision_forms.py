"""What the clinician does with each thing the plan says."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any, cast

from django import forms
from django.http import QueryDict
from django.utils import timezone

from clinic.clinic_details.closed_days import closed_words
from clinic.fields import ClockField
from clinic.plans.decidables import FOLLOW_UP, REFERRAL, Decidable, decidables
from clinic.plans.decided_item import is_kept
from clinic.plans.models import Choice, Decision
from clinic.plans.models.decision import OWN_WORDS
from clinic.plans.planned import Planned, only
from clinic.visits.chart import pending_of
from clinic.visits.models import Assessment
from planning import Alternative, Plan

IN_WORDS = (OWN_WORDS, "In my own words: a note, not used in any calculation")
#: Accept, something else, drop: of a recommendation, of the next visit, of a referral.
_LABELS = {
    "": ("As proposed", "Other", "Not today"),
    FOLLOW_UP: ("As proposed", "Another day", "No next visit"),
    REFERRAL: ("As proposed", "Another question", "No referral"),
}
#: Nothing is offered in place of these: they are changed by a date or a question.
_TYPED_ELSEWHERE = (FOLLOW_UP, REFERRAL)
#: What is written to a decision besides the choice.
WRITTEN = ("changed_to", "reason", "at")


class InsteadField(forms.CharField):
    """A code; ``choices`` are those offered, in words, once they are worked out."""

    choices: list[tuple[str, str]] = []


class DecisionForm(forms.Form):
    """Accept; or something else, or not today, with a reason."""

    about = forms.CharField(widget=forms.HiddenInput, required=False)
    choice = forms.ChoiceField(
        label="Decision", choices=Choice.choices, required=False, widget=forms.RadioSelect
    )
    instead = InsteadField(label="What instead", max_length=60, required=False)
    changed_to = forms.CharField(label="Note in my own words", max_length=500, required=False)
    reason = forms.CharField(label="Why", max_length=500, required=False)

    def __init__(
        self,
        decidable: Decidable,
        stored: Decision | None,
        data: QueryDict | None,
        visit_day: date,
        planned: Planned | None = None,
        *,
        signed: bool = False,
    ) -> None:
        self.decidable, self.stored, self.visit_day = decidable, stored, visit_day
        self.planned = planned
        self.topic = decidable.text
        #: Decided about other words than the plan says now: ask again, keep what was written.
        self.stale = stored is not None and not _still_holds(stored, decidable, signed=signed)
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
        self._name_what_is_typed()

    def _name_what_is_typed(self) -> None:
        kind = self.decidable.key if self.decidable.key == FOLLOW_UP else ""
        kind = REFERRAL if self.decidable.key.startswith(REFERRAL) else kind
        choice = cast("forms.ChoiceField", self.fields["choice"])
        choice.choices = list(zip(Choice.values, _LABELS[kind], strict=True))
        if self.decidable.key == FOLLOW_UP:
            self.fields["changed_to"].label = "Another date"
            self.fields["changed_to"].widget = forms.DateInput(attrs={"type": "date"})
            self.fields["at"] = ClockField(label="Time, where one is agreed", required=False)
        elif self.decidable.key.startswith(REFERRAL):
            self.fields["changed_to"].label = "Another question"

    @property
    def chooses(self) -> bool:
        """Whether *other* is chosen from a list, rather than a date or a question."""
        return not self.decidable.key.startswith(_TYPED_ELSEWHERE)

    @property
    def offers(self) -> tuple[Alternative, ...]:
        """What may be chosen instead, and passes every check."""
        found = self.planned.offers if self.planned else {}
        return found.get(self.decidable.key, ()) if self.chooses else ()

    def offer_choices(self) -> None:
        """Show what is offered, where the form is shown; none of it is worked out before."""
        if not self.chooses:
            del self.fields["instead"]
            return
        offered = [(one.fixed.code, one.text) for one in self.offers]
        listed = [("", "Choose…"), *offered, IN_WORDS]
        fixed = self.decidable.fixed
        if fixed is not None and fixed.code not in dict(listed):
            listed.insert(1, (fixed.code, self.decidable.text))
        field = cast("InsteadField", self.fields["instead"])
        field.choices, field.widget = listed, forms.Select(choices=listed)

    def clean(self) -> dict[str, Any]:
        given = self.cleaned_data
        given.pop("about", None)
        choice = given.get("choice")
        if choice == Choice.CHANGED:
            self._clean_changed(given)
        else:
            given["instead"] = ""
        if choice in {Choice.CHANGED, Choice.DROPPED} and not given.get("reason"):
            self.add_error("reason", "Write why, in a few words.")
        if self.decidable.key == FOLLOW_UP:
            self._clean_time(given)
        return given

    def _clean_time(self, given: dict[str, Any]) -> None:
        """A time agreed for the proposed day accepts that day; without a visit there is none."""
        if given.get("choice") == Choice.DROPPED:
            given["at"] = None
        elif given.get("at") and not given.get("choice"):
            given["choice"] = Choice.ACCEPTED

    def _clean_changed(self, given: dict[str, Any]) -> None:
        if not self.chooses:
            given["instead"] = ""
            if not given.get("changed_to"):
                self.add_error("changed_to", "Write what instead.")
            elif self.decidable.key == FOLLOW_UP:
                self._clean_date(given["changed_to"])
            return
        code = given.get("instead") or (OWN_WORDS if given.get("changed_to") else "")
        if not code:
            self.add_error("instead", "Choose what instead.")
        elif code == OWN_WORDS:
            given["instead"] = OWN_WORDS
            if not given.get("changed_to"):
                self.add_error("changed_to", "Write what instead.")
        else:
            self._clean_instead(code, given)

    def _clean_instead(self, code: str, given: dict[str, Any]) -> None:
        stored = self.stored
        if stored is not None and not self.stale and stored.chosen == code:
            given["changed_to"] = stored.changed_to
            return
        offered = {one.fixed.code: one.text for one in self.offers}
        if code in offered:
            given["changed_to"] = offered[code]
        else:
            self.add_error("instead", "This cannot be chosen here any more: choose again.")

    def _clean_date(self, typed: str) -> None:
        try:
            day = date.fromisoformat(typed)
        except ValueError:
            self.add_error("changed_to", "Write the date like 2024-05-31.")
            return
        if day <= self.visit_day:
            self.add_error("changed_to", "The next visit must come after this one.")
        elif closed := closed_words(day):
            self.add_error("changed_to", f"{closed} Choose another day.")

    @property
    def decided(self) -> bool:
        """Whether a decision about the plan's present words is stored."""
        return self.stored is not None and not self.stale

    @property
    def asks_again(self) -> bool:
        """Decided once, about something that has changed since."""
        return (self.stale and not self.stands) or self.moved_on

    @property
    def refused(self) -> str:
        """Why what was chosen may no longer be; "" where nothing was."""
        return self.planned.refused.get(self.decidable.key, "") if self.planned else ""

    @property
    def stands(self) -> bool:
        """Kept as it is worn, with nothing else begun about it: it needs no decision of its own,
        the signature accepts it together with the others."""
        begun = any(self[name].value() for name in ("choice", "changed_to", "reason"))
        return is_kept(self.decidable.source) and not self.decided and not begun


def _still_holds(stored: Decision, now: Decidable, *, signed: bool) -> bool:
    """Whether it was decided about what is shown now. Once ``signed`` it was, though some of its
    words may be withheld since."""
    if now.fixed is not None:
        # The plan was made again round it: so it was about what is proposed still.
        return stored.choice == Choice.CHANGED and stored.chosen == now.fixed.code
    if stored.choice == Choice.CHANGED and stored.chosen not in ("", OWN_WORDS):
        return False
    by_words = signed or not stored.about
    return stored.text == now.text if by_words else stored.about == now.about


def _remembered(stored: Decision | None, *, stale: bool) -> dict[str, Any]:
    if stored is None:
        return {}
    chose = stored.chosen not in ("", OWN_WORDS)
    return {
        "choice": "" if stale else stored.choice,
        "instead": "" if stale else stored.chosen,
        "changed_to": "" if chose else stored.changed_to,
        "reason": stored.reason,
        "at": stored.at,
    }


class Decisions:
    """Every decision form of one assessment, in the plan's order."""

    def __init__(
        self, plan: Plan | Planned, assessment: Assessment, *, data: QueryDict | None = None
    ) -> None:
        self.planned = only(plan)
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
                self.planned,
                signed=assessment.visit.is_signed,
            )
            for item in decidables(self.planned, assessment)
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
