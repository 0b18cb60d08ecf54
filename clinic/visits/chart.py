"""Everything on the visit page for one assessment: its forms, checked together."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from typing import Any

from django.db import models as db
from django.forms import BaseForm
from django.http import QueryDict

from clinic.visits import models
from clinic.visits.choices import Presence, SectionKey, SkinState
from clinic.visits.forms import parts, rows
from clinic.visits.forms.as_posted import form_as_posted
from clinic.visits.forms.part import PartForm

#: Part of the page -> (form, one-to-one relation on the assessment).
PARTS: dict[str, tuple[type[PartForm], str]] = {
    "system": (parts.SystemForm, "system"),
    "stoma": (parts.StomaForm, "measurement"),
    "skin": (parts.SkinForm, "skin_assessment"),
    "abdomen": (parts.AbdomenForm, "abdomen"),
    "output": (parts.OutputForm, "output"),
    "person": (parts.PersonTodayForm, "person_today"),
}

#: Part of the page -> (row form, reverse relation on the assessment).
ROWS: dict[str, tuple[type[rows.RowForm], str]] = {
    "finding": (rows.SkinRowForm, "skin_findings"),
    "wound": (rows.WoundRowForm, "wound_rows"),
    "otherstoma": (rows.OtherStomaRowForm, "other_stoma_rows"),
    "colourpart": (rows.ColourRowForm, "colour_rows"),
    "begun": (rows.BegunRowForm, "begun_rows"),
    "crease": (rows.CreaseRowForm, "crease_rows"),
    "wear": (rows.WearRowForm, "wear_rows"),
}

#: Which forms a section of the page holds.
SECTION_FORMS: dict[str, tuple[str, ...]] = {
    SectionKey.SYSTEM: ("system", "begun"),
    SectionKey.STOMA: ("stoma", "colourpart"),
    SectionKey.SKIN: ("skin", "finding", "wound", "otherstoma"),
    SectionKey.ABDOMEN: ("abdomen", "crease"),
    SectionKey.OUTPUT: ("output", "person"),
    SectionKey.WEAR: ("wear",),
}

#: Part of the page -> its section's title: "Length" alone could be the stoma's or the opening's.
TOPICS = {
    name: str(SectionKey(key).label)
    for key, names in SECTION_FORMS.items()
    for name in names
    if name in PARTS
}

#: The field that holds which sections were not looked at.
CLOSED = "whole-not_looked_at"


def part_of(assessment: models.Assessment, relation: str) -> db.Model | None:
    """A one-to-one part, or None where it was never begun."""
    return getattr(assessment, relation, None)


class Chart:
    """Every form bound to what was posted; or, while something typed could not be stored yet, to
    what the page would post again, so that opening a draft checks what saving it checked; or
    none bound, and each showing what is stored.
    """

    def __init__(
        self,
        assessment: models.Assessment,
        *,
        data: QueryDict | None = None,
        previous: models.Assessment | None = None,
        spare: Mapping[str, int] | None = None,
    ) -> None:
        self.assessment, self.previous = assessment, previous
        self._posted = data is not None
        #: Section -> what is wrong with having closed it; said in that section's head.
        self.closed_but_filled: dict[str, str] = {}
        self._build(data, spare or {})
        pending = {} if self._posted else self._own(pending_of(assessment))
        if pending:
            self._build(self._with(pending), spare or {})

    def _build(self, data: QueryDict | None, spare: Mapping[str, int]) -> None:
        self.visit = parts.VisitForm(data, instance=self.assessment.visit, prefix="visit")
        self.whole = parts.AssessmentForm(
            data, instance=self.assessment, previous=self.previous, prefix="whole"
        )
        self.parts = {name: self._part(name, data) for name in PARTS}
        self.rows = {
            name: rows.RowSet(
                prefix=name,
                form=form,
                assessment=self.assessment,
                stored=getattr(self.assessment, relation).all(),
                data=data,
                spare=spare.get(name, 0),
            )
            for name, (form, relation) in ROWS.items()
        }

    def _part(self, name: str, data: QueryDict | None) -> PartForm:
        form, relation = PARTS[name]
        row = part_of(self.assessment, relation) or form._meta.model(assessment=self.assessment)
        before = part_of(self.previous, relation) if self.previous else None
        part = form(data, instance=row, previous=before, prefix=name)
        part.topic = TOPICS[name]
        return part

    def _own(self, pending: Mapping[str, QueryDict]) -> dict[str, QueryDict]:
        return {prefix: typed for prefix, typed in pending.items() if self.owns(prefix)}

    def _with(self, pending: Mapping[str, QueryDict]) -> QueryDict:
        """What is stored, as the page would post it, with what is pending in its place."""
        data = QueryDict(mutable=True)
        for name, values in self.as_posted().items():
            # A pending form is as it was typed: a box that was emptied stays empty.
            if not any(name.startswith(f"{prefix}-") for prefix in pending):
                data.setlist(name, values)
        for prefix, typed in pending.items():
            for name, values in typed.lists():
                data.setlist(name, values)
            kind, _, key = prefix.partition("-")
            if key and key not in data.getlist(f"{kind}-row"):
                data.appendlist(f"{kind}-row", key)
        return data

    def as_posted(self) -> dict[str, list[str]]:
        """What the page would post if nothing were touched."""
        posted: dict[str, list[str]] = {}
        for _, form in self.forms():
            posted |= form_as_posted(form)
        for name, rowset in self.rows.items():
            posted[f"{name}-row"] = [form.key for form in rowset.kept()]  # type: ignore[attr-defined]
        return posted

    # --- every form, by its prefix ---------------------------------------------------------
    def forms(self) -> Iterator[tuple[str, PartForm]]:
        """Every form that holds something, rows included."""
        yield "visit", self.visit
        yield "whole", self.whole
        yield from self.parts.items()
        for rowset in self.rows.values():
            for row in rowset.kept():
                yield str(row.prefix), row

    def form(self, prefix: str) -> PartForm:
        """The one form of this name; no row's."""
        whole = {"visit": self.visit, "whole": self.whole}
        return whole[prefix] if prefix in whole else self.parts[prefix]

    def owns(self, prefix: str) -> bool:
        """Whether a form of this name is one of the chart's."""
        return prefix.partition("-")[0] in {"visit", "whole", *PARTS, *ROWS}

    def check(self) -> bool:
        """Validate every form, then what they say together. True where all is well."""
        bound = [form for _, form in self.forms() if form.is_bound]
        for form in bound:
            form.is_valid()
        if bound:  # then every one is
            self._check_together()
        if not self._posted:
            # Only looked at: the rows go on saying what is stored, as the plan does.
            for form in bound:
                form.put_back(form.fields)
        return all(form.is_valid() for form in bound)

    def _check_together(self) -> None:
        self._check_rows_wanted("skin", "state", SkinState.FINDINGS, "finding", "findings")
        self._check_rows_wanted("skin", "wounds", Presence.PRESENT, "wound", "wounds")
        self._check_rows_wanted(
            "skin", "other_stomas", Presence.PRESENT, "otherstoma", "other stomas"
        )
        self._check_rows_wanted("abdomen", "creases", Presence.PRESENT, "crease", "creases")
        self._check_colour()
        self._check_begun()
        self._check_wear()
        self._check_closed_sections()

    def _check_rows_wanted(
        self, part: str, field: str, wanted: str, rowset: str, words: str
    ) -> None:
        form, kept = self.parts[part], self.rows[rowset].kept()
        state = form.cleaned_data.get(field, "")
        if state == wanted and not kept:
            form.add_error(field, f"Add the {words} below, or choose another answer.")
        if state != wanted and kept:
            label = dict(form.fields[field].choices)[wanted]  # type: ignore[attr-defined]
            form.add_error(field, f"There are {words} below: choose “{label}”, or remove them.")

    def _check_colour(self) -> None:
        """A part's colour says nothing of the rest; two parts at one hour contradict each other."""
        kept = self.rows["colourpart"].kept()
        stoma = self.parts["stoma"]
        if kept and not stoma.cleaned_data.get("colour") and "colour" not in stoma.errors:
            stoma.add_error("colour", "Choose the stoma's colour too: the worst, where it differs.")
        taken: set[int] = set()
        for part in (form for form in kept if form.is_valid()):
            hours = set(part.cleaned_data["hours"])
            if hours & taken:
                part.add_error("hours", "Another part has a colour at these hours.")
            taken |= hours

    def _check_begun(self) -> None:
        """Each product once: two days for one contradict each other."""
        named = {self.parts["system"].cleaned_data.get("begun_product")}
        for row in (form for form in self.rows["begun"].kept() if form.is_valid()):
            product = row.cleaned_data["product"]
            if product in named:
                row.add_error("product", "This product is named already: keep one of the two.")
            named.add(product)

    def _check_wear(self) -> None:
        worn = [f for f in self.rows["wear"].kept() if f.is_valid()]
        worn.sort(key=lambda form: form.cleaned_data["on"])
        for earlier, later in itertools.pairwise(worn):
            off = earlier.cleaned_data["off"]
            if off is None:
                earlier.add_error("off", "A later barrier was put on: when did this one come off?")
            elif later.cleaned_data["on"] < off:
                later.add_error("on", "This overlaps the barrier before it.")

    def _check_closed_sections(self) -> None:
        for section in self.whole.cleaned_data.get("not_looked_at") or []:
            if self.is_filled(section):
                self.closed_but_filled[section] = (
                    "This part is marked as not looked at, but something is filled in."
                )
        for message in self.closed_but_filled.values():
            self.whole.add_error("not_looked_at", message)

    def is_filled(self, section: str) -> bool:
        """Whether anything of a section is charted. Asked of a chart that was checked."""
        for name in SECTION_FORMS[section]:
            if name in self.rows:
                if self.rows[name].kept():
                    return True
            elif self.parts[name].is_valid() and self.parts[name].filled:
                return True
        return False

    def show(self, errors: Mapping[str, list[str]]) -> None:
        """Put errors found elsewhere beside their fields, whether or not a form is bound."""
        for prefix, form in self.forms():
            for name, messages in errors.items():
                field = name.removeprefix(f"{prefix}-")
                if field == name or field not in form.fields:
                    continue
                form.show(field, messages)

    def errors(self) -> dict[str, list[str]]:
        """Field's HTML name -> messages; a form's own errors under its prefix."""
        found: dict[str, list[str]] = {}
        for prefix, form in self.forms():
            for name, messages in (form.errors if form.is_bound else {}).items():
                key = prefix if name == "__all__" else form.add_prefix(name)
                found[key] = [str(m) for m in messages]
        if self.closed_but_filled:
            del found[CLOSED]
            found |= {closed_name(key): [said] for key, said in self.closed_but_filled.items()}
        return found

    def labels(self) -> dict[str, str]:
        """Field's HTML name -> its label, for the list of errors on top."""
        labels = {n: label for _, form in self.forms() for n, label in labels_of(form).items()}
        return labels | {closed_name(key): str(key.label) for key in SectionKey}


def closed_name(section: str) -> str:
    """Names one section's *not looked at*: one field, but a box in each section's head."""
    return f"{CLOSED}-{section}"


def labels_of(form: BaseForm) -> dict[str, str]:
    """HTML name -> label, which says first where it is: ``Stoma: Length``, ``Finding 2: Hours``."""
    topic = getattr(form, "topic", "")
    begin = f"{topic}: " if topic else ""
    return {form.add_prefix(n): f"{begin}{field.label}" for n, field in form.fields.items()}


def pending_of(assessment: models.Assessment) -> dict[str, QueryDict]:
    """What was typed and could not be stored yet, by form."""
    waiting = {}
    for entry in assessment.pending.all():
        data = QueryDict(mutable=True)
        for name, values in entry.data.items():
            data.setlist(name, values)
        waiting[entry.prefix] = data
    return waiting


def raw_of(form: BaseForm) -> dict[str, list[str]]:
    """Exactly what was posted for one form."""
    data: Any = form.data
    begin = f"{form.prefix}-"
    return {name: data.getlist(name) for name in data if name.startswith(begin)}
