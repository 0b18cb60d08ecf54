"""The small drawings beside the steps."""

from types import SimpleNamespace
from xml.etree import ElementTree

import pytest

from clinic.documents.care_sheet.step_drawings import OF_STEP, SHOWS, picture_of
from clinic.documents.rendering.url_fetcher import static_folder
from planning.technique import RULES
from tests.clinic.documents import paper
from tests.clinic.documents.conftest import SHEET
from tests.clinic.documents.made_visits import printed

DRAWINGS = static_folder() / "drawings"


def decided(*, overlap: bool = False, bulge: str = "") -> SimpleNamespace:
    return SimpleNamespace(
        plan=SimpleNamespace(dimensions=SimpleNamespace(ring_cut_and_overlap=overlap)),
        assessment=SimpleNamespace(abdomen=SimpleNamespace(bulge=bulge)),
    )


def test_every_drawn_step_is_a_step_for_patients() -> None:
    assert set(OF_STEP) <= {rule.key for rule in RULES if rule.patient}


def test_every_drawing_is_there_and_said_in_words() -> None:
    assert {path.stem for path in DRAWINGS.glob("*.svg")} == set(SHOWS)
    assert set(OF_STEP.values()) <= set(SHOWS)


@pytest.mark.parametrize("name", SHOWS)
def test_a_drawing_is_plain_black_grey_and_white(name: str) -> None:
    drawing = ElementTree.parse(DRAWINGS / f"{name}.svg")  # noqa: S314 - our own file
    for part in drawing.iter():
        for paint in (part.get("fill"), part.get("stroke")):
            if paint not in (None, "none"):
                wide = len(paint[1:]) // 3
                assert len({paint[at : at + wide] for at in range(1, len(paint), wide)}) == 1, paint


def test_ring_and_half_ring_are_drawn_as_this_stoma_needs_them() -> None:
    assert picture_of("ring", decided()) == "ring"  # type: ignore[arg-type]
    assert picture_of("ring", decided(overlap=True)) == "ring-overlap"  # type: ignore[arg-type]
    assert picture_of("half_ring", decided()) == "half-ring"  # type: ignore[arg-type]
    bulging = decided(bulge="present")
    assert picture_of("half_ring", bulging) == "half-ring-bulge"  # type: ignore[arg-type]
    assert picture_of("empty", bulging) == ""  # type: ignore[arg-type]


def test_a_drawing_has_words_for_people_who_hear_the_sheet() -> None:
    pictures = [e for e in paper.structure(printed(SHEET)) if e["/S"] == "/Figure"]
    assert SHOWS["peel"] in [str(one.get("/Alt")) for one in pictures]
