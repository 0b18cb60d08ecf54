"""A late save beside what is stored: what to choose, and whether a choice was made from this."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass

from django.http import QueryDict

from clinic.charting.page import decision_forms
from clinic.plans.decision_forms import DecisionForm
from clinic.read_json import read_json
from clinic.visits.chart import Chart
from clinic.visits.merging import Difference, differences, merged, same_text
from clinic.visits.models import Assessment, ConflictCopy

SIDES = {"mine", "theirs"}


@dataclass(frozen=True)
class Answer:
    """What was chosen for one field, and the two values that stood there then."""

    chosen: str
    mine: list[str]
    theirs: list[str]


@dataclass(frozen=True)
class Question:
    """One difference to choose on. ``answer`` is what the page sent for it, if it was there."""

    difference: Difference
    answer: Answer | None = None
    #: False when the page is shown for the first time.
    posted: bool = False

    @property
    def chosen(self) -> str:
        """The side that counts, or is ticked beforehand; empty while neither."""
        if not self.posted:
            return self.difference.suggested
        return self.answer.chosen if self.answer and not self.moved_on else ""

    @property
    def is_new(self) -> bool:
        """No difference when the page was shown: somebody has made it one since."""
        return self.posted and self.answer is None

    @property
    def theirs_moved(self) -> bool:
        """What is stored is not what stood there when the choice was made."""
        return self.answer is not None and not same_text(self.answer.theirs, self.difference.theirs)

    @property
    def mine_moved(self) -> bool:
        """One's own kept entry is another than stood there when the choice was made."""
        return self.answer is not None and not same_text(self.answer.mine, self.difference.mine)

    @property
    def moved_on(self) -> bool:
        return self.is_new or self.theirs_moved or self.mine_moved

    @property
    def theirs_before(self) -> str:
        """In words, what was stored when the choice was made."""
        return self.difference.in_words(self.answer.theirs) if self.answer else ""

    @property
    def shown(self) -> str:
        """Both values as this page shows them: posted back beside the choice."""
        return json.dumps([self.difference.mine, self.difference.theirs])


class Versions:
    """One kept copy and what is stored now, read together."""

    def __init__(
        self, stored: Assessment, copy: ConflictCopy, post: QueryDict | None = None
    ) -> None:
        self.stored, self.copy = stored, copy
        self._chart, self._decisions = Chart(stored), decision_forms(stored)
        self._chart.check()
        for form in self._decisions:
            # A choice is read in words, not as its code.
            form.offer_choices()
        self.no_longer_asked = _drop_what_is_no_more_asked(copy, self._decisions)
        self.questions = [
            Question(d, _answer(post, d.name) if post is not None else None, post is not None)
            for d in differences(copy.data, self._chart, self._decisions)
        ]

    @property
    def moved_on(self) -> list[Question]:
        """Chosen from something else than is there now, or never shown."""
        return [q for q in self.questions if q.moved_on]

    @property
    def unchosen(self) -> list[Question]:
        """Shown as they are now, and not chosen."""
        return [q for q in self.questions if not q.chosen and not q.moved_on]

    def merged(self) -> QueryDict:
        """The stored version with what was chosen of the copy over it."""
        chosen = {q.difference.name: q.chosen for q in self.questions}
        return merged(self.copy, self._chart, chosen, self._decisions)


def _answer(post: QueryDict, name: str) -> Answer | None:
    """What was posted for one field; None where the page did not show it."""
    try:
        mine, theirs = read_json(post.get(f"shown-{name}", ""))
    except (TypeError, ValueError):
        return None
    if not (_are_texts(mine) and _are_texts(theirs)):
        return None
    chosen = post.get(f"choose-{name}", "")
    return Answer(chosen if chosen in SIDES else "", mine, theirs)


def _are_texts(values: object) -> bool:
    return isinstance(values, list) and all(isinstance(value, str) for value in values)


def _drop_what_is_no_more_asked(copy: ConflictCopy, decisions: list[DecisionForm]) -> list[str]:
    """Leave out decisions about something that the plan no longer says; what was written there."""
    asked = {
        form.add_prefix(name)
        for form in decisions
        for name in form.fields
        if copy.data.get(form.add_prefix("about")) == [form.decidable.about]
    }
    dropped: Mapping[str, list[str]] = {
        n: v for n, v in copy.data.items() if n.startswith("decision-") and n not in asked
    }
    copy.data = {n: v for n, v in copy.data.items() if n not in dropped}
    written = ("-changed_to", "-reason")
    return [text for n, v in dropped.items() if n.endswith(written) for text in v if text.strip()]
