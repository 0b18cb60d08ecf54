"""A paper built once and said in each language: every word of it, and nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Generic

import pytest
from pytest_django import Settings

from clinic.documents.care_sheet.build import ASK_HOW, care_sheet
from clinic.documents.patient_language.english_marks import in_english
from clinic.documents.patient_language.lay_terms import NBSP
from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.said import english, said
from clinic.documents.patient_language.unsaid import (
    Given,
    Joined,
    Phrase,
    Typed,
    Unsaid,
    W,
    typed,
)
from planning.results.message import Days, Length, to_patient
from tests.clinic.documents import made_plans, made_visits

HOW = Phrase(ASK_HOW)
HOLE = Phrase.of("The hole is {size} wide.", size=Length(34))


@dataclass(frozen=True)
class Inner(Generic[W]):
    words: W
    key: str = "key"


@dataclass(frozen=True)
class Paper(Localised, Generic[W]):
    name: str
    rows: tuple[Inner[W], ...]
    one: Inner[W] | None = None
    large: bool = False


@pytest.mark.parametrize(
    ("words", "in_english_", "in_spanish"),
    [
        ("Ann", "Ann", "Ann"),
        (Phrase.of("{month} {year}", month="May", year=2026), "May 2026", "May de 2026"),
        (HOLE, "The hole is 34 mm (about 1 5/16 inches) wide.", ""),
        (Days(2), "2 days", "2 días"),
        (to_patient("Empty the pouch."), "Empty the pouch.", "Vacíe la bolsa."),
        (Joined(("", Phrase("Barrier", "row"), "", Days(1))), "Barrier 1 day", "Barrera 1 día"),
        (Joined(("a", "b"), "; "), "a; b", "a; b"),
        (typed("cut it"), "Cut it.", in_english("Cut it.")),
        (Given("Mondays", {"es": "lunes"}), "Mondays", "lunes"),
        (Given("Mondays"), "Mondays", in_english("Mondays")),
        (Phrase("Fly to the moon."), "Fly to the moon.", in_english("Fly to the moon.")),
    ],
)
def test_every_kind_of_word(words: Unsaid, in_english_: str, in_spanish: str) -> None:
    assert english(words).replace(NBSP, " ") == in_english_
    told = said(words, "es").replace(NBSP, " ")
    assert told == in_spanish or (not in_spanish and "34 mm (aprox." in told)


def test_a_whole_paper_with_what_is_inside_it(settings: Settings) -> None:
    settings.SHEET_REVIEWERS = {"es": "Rowan Ashgrove"}
    built: Paper[Unsaid] = Paper("Ann", (Inner(HOW), Inner("Ann", "x")), Inner(Days(2)))
    spanish: Paper[str] = said(built, "es")
    ann = Inner("Ann", "x")
    assert spanish == Paper(
        "Ann",
        (Inner("Pida a su enfermera o enfermero que le muestre cómo."), ann),
        Inner("2 días"),
        language="es",
        reviewer="Rowan Ashgrove",
    )
    assert english(built) == Paper("Ann", (Inner(ASK_HOW), ann), Inner("2 days"), language="en")


@pytest.mark.parametrize("part", [Inner("no words of ours"), (Inner("a"), 3), None, True, 2.5, 7])
def test_what_holds_no_words_is_left_as_it_is(part: Any) -> None:
    assert said(part, "ar") is part


def test_a_language_there_is_none_of() -> None:
    with pytest.raises(ValueError, match="xx"):
        said(HOW, "xx")


def test_nothing_says_nothing() -> None:
    assert not any((typed(""), Joined(("", typed(" "))), to_patient()))
    assert Joined(("", HOW))
    assert Typed("A.")


@pytest.mark.django_db
def test_a_sheet_is_built_once_for_every_language(monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, made_plans.LEAK)
    made = made_visits.assessed()
    made_visits.sore_low_down(made)
    made_visits.decide(made, made_plans.LEAK)
    built = care_sheet(made_visits.decided(made), large=False)
    before = repr(built)
    told = {code: said(built, code) for code in ("en", "es", "ar")}
    assert len({sheet.visit_day for sheet in told.values()}) == 3
    assert len({sheet.marks for sheet in told.values()}) == 3
    assert repr(built) == before
    assert built.language == ""


def test_what_is_not_said_in_a_language_cannot_be_printed() -> None:
    built: Paper[Unsaid] = Paper("Ann", (Inner(HOW),))
    with pytest.raises(ValueError, match="''"):
        assert built.translator.code
