"""Papers are declared once, and each keeps to itself."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings

from clinic.documents.kinds import PAPERS, Kind, in_patients_language, pages

DOCUMENTS = Path(settings.BASE_DIR) / "clinic" / "documents"
#: Folder (or single file) of each paper.
ROOMS = sorted({page.view.partition(".")[0] for page in pages()})
#: What is made of several papers.
ABOVE = {"urls", "day_batch", "management", "templatetags"}


def imported(path: Path) -> Iterator[str]:
    """Parts of this app that a file imports, by folder or file."""
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.ImportFrom) and node.module:
            names = [f"{node.module}.{one.name}" for one in node.names]
        elif isinstance(node, ast.Import):
            names = [one.name for one in node.names]
        else:
            continue
        yield from (name.split(".")[2] for name in names if name.startswith("clinic.documents."))


def test_every_kind_is_declared() -> None:
    assert list(PAPERS) == list(Kind)
    names = [page.name for page in pages()]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("kind", Kind)
def test_a_kind_has_a_page_that_prints_and_offers_only_its_own(kind: Kind) -> None:
    paper = PAPERS[kind]
    assert any(page.prints for page in paper.pages)
    assert {link.page for link in paper.links} <= {page.name for page in paper.pages}
    assert {page.about for page in paper.pages} <= {"assessment", "stoma", "referral"}
    assert paper.of_stoma == any(page.about == "stoma" for page in paper.pages)


@pytest.mark.parametrize("room", ROOMS)
def test_a_paper_knows_no_other_paper_and_nothing_below_knows_it(room: str) -> None:
    knows = {
        path.relative_to(DOCUMENTS).parts[0].removesuffix(".py")
        for path in DOCUMENTS.rglob("*.py")
        if room in set(imported(path))
    }
    assert knows <= {room, *ABOVE}


def test_papers_in_the_patients_language_are_named() -> None:
    assert in_patients_language().startswith("Care sheets, cutting templates")
    assert "letter" not in in_patients_language()
