"""Every kind of paper, declared once: what prints it, for whom it is, where it is offered.

Addresses, the audit trail's words, lists, rights to open it again and the database's own list of
kinds are made of this. A new paper is a ``Kind``, its row in ``PAPERS`` and its room.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.db.models import TextChoices


class Kind(TextChoices):
    """As stored, and as people call it."""

    CARE_SHEET = "care_sheet", "Care sheet"
    CUTTING_TEMPLATE = "cutting_template", "Cutting template"
    SUPPLY_LIST = "supply_list", "Supply list"
    LETTER = "letter", "Letter"
    DIARY = "diary", "Wear diary"
    NEXT_VISIT_CARD = "next_visit_card", "Next visit card"
    LIVING = "living", "Living with your stoma"
    QUESTIONS = "questions", "Questions for the patient"


@dataclass(frozen=True)
class Page:
    """One address. ``view``: its function, as found from this folder. ``words``: what the page is
    for, as the audit trail names it. ``prints``: whether it gives the paper itself."""

    name: str
    address: str
    view: str
    words: str
    prints: bool = True

    @property
    def about(self) -> str:
        """What the address names: assessment, stoma or referral."""
        return self.address.partition("<uuid:")[2].partition(">")[0]


@dataclass(frozen=True)
class Link:
    """Where a list offers the paper: ``words`` to clinicians, ``desk_words`` at the front desk,
    where "" leaves it out. ``spoken``: for screen readers instead of the visit's day. ``opens``:
    whether it opens the paper, beside the page that is open."""

    page: str
    words: str
    desk_words: str
    query: str = ""
    spoken: str = ""
    opens: bool = True


@dataclass(frozen=True)
class Declared:
    """One kind. ``for_patient``: in the patient's language, else English. ``clinical``: between
    clinicians, and only they open it again. ``of_stoma``: of no visit, offered while the stoma is
    open."""

    pages: tuple[Page, ...]
    links: tuple[Link, ...]
    for_patient: bool = True
    clinical: bool = False
    of_stoma: bool = False


_VISIT = "<uuid:assessment>/"
PAPERS: dict[Kind, Declared] = {
    Kind.CARE_SHEET: Declared(
        pages=(
            Page("care_sheet", f"care-sheet/{_VISIT}", "care_sheet.views.care_sheet",
                 "printing a care sheet"),
            Page("preview", f"care-sheet/{_VISIT}preview/", "care_sheet.preview_views.preview",
                 "a care sheet before printing", prints=False),
            Page("edit_sheet", f"care-sheet/{_VISIT}edit/", "care_sheet.preview_views.edit",
                 "changing a care sheet", prints=False),
        ),
        links=(Link("care_sheet", "Care sheet, printed at once", "Care sheet"),),
    ),
    Kind.CUTTING_TEMPLATE: Declared(
        pages=(
            Page("cutting_template", f"cutting-template/{_VISIT}",
                 "cutting_template.views.cutting_template", "printing a cutting template"),
        ),
        links=(
            Link("cutting_template", "Cutting template, front of the barrier",
                 "Cutting template, front", "side=front"),
            Link("cutting_template", "Cutting template, back of the barrier (mirrored)",
                 "Cutting template, back", "side=back"),
        ),
    ),
    Kind.SUPPLY_LIST: Declared(
        pages=(
            Page("supplies", f"supplies/{_VISIT}", "supply_list.views.supplies",
                 "a supply list", prints=False),
            Page("codes", f"supplies/{_VISIT}codes/", "supply_list.views.codes",
                 "choosing diagnosis codes", prints=False),
            Page("supply_list", f"supply-list/{_VISIT}", "supply_list.views.supply_list",
                 "printing a supply list"),
            Page("supply_list_csv", f"supply-list/{_VISIT}csv/",
                 "supply_list.views.supply_list_csv", "a supply list as a file", prints=False),
        ),
        links=(
            Link("supplies", "Supply list and codes", "", opens=False),
            Link("supply_list", "", "Supply list"),
        ),
        for_patient=False,
    ),
    Kind.LETTER: Declared(
        pages=(
            Page("letter", "letter/<uuid:referral>/", "letter.views.letter",
                 "the letter of a referral"),
            Page("visit_letter", f"letter/about/{_VISIT}", "letter.views.letter_of_visit",
                 "the letter of a visit"),
        ),
        links=(),
        for_patient=False,
        clinical=True,
    ),
    Kind.DIARY: Declared(
        pages=(
            Page("diary", "diary/<uuid:stoma>/", "wear_diary.views.diary",
                 "printing a wear diary"),
        ),
        links=(
            Link("diary", "Wear diary for next month", "Wear diary", spoken="for next month"),
        ),
        of_stoma=True,
    ),
    Kind.NEXT_VISIT_CARD: Declared(
        pages=(
            Page("next_visit_card", f"next-visit-card/{_VISIT}",
                 "next_visit_card.next_visit_card", "printing a next visit card"),
        ),
        links=(Link("next_visit_card", "Next visit card", "Next visit card"),),
    ),
    Kind.LIVING: Declared(
        pages=(
            Page("living", f"living/{_VISIT}", "living.views.living",
                 "printing the leaf about living with a stoma"),
        ),
        links=(Link("living", "Living with your stoma", "Living with your stoma"),),
    ),
    Kind.QUESTIONS: Declared(
        pages=(
            Page("questions", "questions/<uuid:stoma>/", "questions.questions",
                 "printing the clinic's own questions"),
        ),
        # Offered where they are asked (patient_answers).
        links=(),
        of_stoma=True,
    ),
}  # fmt: skip
OF_STOMA = tuple(kind for kind, paper in PAPERS.items() if paper.of_stoma)
CLINICAL = frozenset(kind for kind, paper in PAPERS.items() if paper.clinical)


def pages() -> Iterator[Page]:
    """Every address of every paper."""
    for paper in PAPERS.values():
        yield from paper.pages


def in_patients_language() -> str:
    """Their names as a list: *Care sheets, cutting templates and wear diaries*."""
    names = [_many(kind.label) for kind, paper in PAPERS.items() if paper.for_patient]
    listed = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
    return listed.capitalize()


def _many(name: str) -> str:
    return f"{name[:-1]}ies" if name.endswith("y") else f"{name}s"
