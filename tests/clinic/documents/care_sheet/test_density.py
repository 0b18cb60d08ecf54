"""A sheet is set as open as two pages allow."""

from dataclasses import replace
from itertools import pairwise
from types import SimpleNamespace

import pytest

from clinic.documents.care_sheet.density import (
    LARGE_SPACINGS,
    ROOM_FOR,
    SPACINGS,
    most_pages,
    spacings,
    words_of,
)
from clinic.documents.care_sheet.pages import html_of, pages_of
from clinic.documents.care_sheet.sheet import Sheet, Step
from clinic.documents.rendering import pdf as pdf_module
from clinic.documents.rendering.pdf import fitting, pdf_of
from tests.clinic.documents import paper

WORDS = "Press the barrier on with a warm hand for a while."


def with_steps(sheet: Sheet, count: int) -> Sheet:
    return replace(sheet, steps=tuple(Step(WORDS, "hold", "A hand.") for _ in range(count)))


def test_few_words_are_tried_as_open_as_can_be(sheet: Sheet) -> None:
    assert words_of(sheet) < ROOM_FOR[0]
    assert spacings(sheet) == SPACINGS


@pytest.mark.parametrize("place", [0, 1, 2])
def test_more_words_begin_closer(sheet: Sheet, place: int) -> None:
    """One word past what each spacing has room for."""
    spare = ROOM_FOR[place] - words_of(replace(sheet, steps=()))
    just = replace(sheet, steps=(Step("word " * spare),))
    assert spacings(just)[0] == SPACINGS[place]
    past = replace(sheet, steps=(Step("word " * (spare + 1)),))
    assert spacings(past) == SPACINGS[place + 1 :]


def test_words_of_another_language_count_for_more(sheet: Sheet) -> None:
    spare = ROOM_FOR[0] - words_of(replace(sheet, steps=()))
    just = replace(sheet, steps=(Step("word " * spare),))
    assert spacings(replace(just, language="es")) == SPACINGS[1:]


@pytest.mark.parametrize(
    ("count", "spacing"), [(34, ""), (36, "closest close"), (44, "closest close")]
)
def test_large_print_is_set_closer_past_two_leaves(sheet: Sheet, count: int, spacing: str) -> None:
    large = replace(with_steps(sheet, count), large=True)
    tried = pages_of(large)
    assert len(tried) == len(LARGE_SPACINGS)
    printed = fitting(tried, at_most=most_pages(large))
    assert printed == pdf_of(tried[LARGE_SPACINGS.index(spacing)])
    assert min(run.points for page in paper.reader(printed).pages for run in paper.runs(page)) >= 18


@pytest.mark.parametrize("count", [14, 30])
def test_closer_takes_no_more_room(sheet: Sheet, count: int) -> None:
    """What ``fitting`` relies on when it halves."""
    taken = [len(pdf_module._set(page).pages) for page in pages_of(with_steps(sheet, count))]
    for opener, closer in pairwise(taken):
        assert closer <= opener


#: Steps that fill two pages more and more, one count a spacing.
COUNTS = (14, 18, 20, 24)


def test_the_most_open_that_keeps_to_two_pages_is_printed(sheet: Sheet) -> None:
    """Over sheets of more and more steps: each spacing is the printed one for some of them."""
    printed = set()
    for count in COUNTS:
        tried = pages_of(with_steps(sheet, count))
        place, expected = next(
            (place, document)
            for place, document in enumerate(map(pdf_module._set, tried))
            if len(document.pages) <= most_pages(sheet) or place == len(tried) - 1
        )
        assert fitting(tried, at_most=most_pages(sheet)) == pdf_module._pdf(expected)
        printed.add(spacings(with_steps(sheet, count))[place])
    assert printed == set(SPACINGS)


def test_nothing_but_the_spacing_differs(sheet: Sheet) -> None:
    tried = pages_of(sheet)
    assert len(set(tried)) == len(SPACINGS)
    bare = {
        page.replace(f'<html class="{spacing}"', "<html")
        for page, spacing in zip(tried, SPACINGS, strict=True)
    }
    assert len(bare) == 1
    assert html_of(sheet) == tried[0]


@pytest.mark.parametrize("amount", range(1, 13))
@pytest.mark.parametrize("first", range(12))
def test_the_first_that_fits_is_found_wherever_it_is(
    monkeypatch: pytest.MonkeyPatch, amount: int, first: int
) -> None:
    """``first`` past the last: none fits, and the last is taken."""
    tried: list[int] = []

    def set_(page: str) -> SimpleNamespace:
        tried.append(int(page))
        return SimpleNamespace(page=page, pages=[0] * (2 if int(page) >= first else 3))

    monkeypatch.setattr(pdf_module, "_set", set_)
    monkeypatch.setattr(pdf_module, "_pdf", lambda document: document.page.encode())
    found = fitting([str(place) for place in range(amount)], at_most=2)
    assert int(found) == min(first, amount - 1)
    assert len(tried) == len(set(tried))
    assert len(tried) <= (1, 2)[first] if first < 2 else len(tried) <= 7


def test_there_is_no_paper_of_nothing() -> None:
    with pytest.raises(ValueError, match="Nothing"):
        fitting(())
