"""Every paper's tags: words for each picture, a direction for each header, a body for each item."""

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.documents.kinds import Page
from clinic.documents.rendering.pdf import pdf_of
from tests.clinic.documents import paper
from tests.clinic.documents.test_every_paper import PRINTS, subject
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db


def faults(pdf: bytes) -> list[str]:
    """What a reader aloud would stumble over."""
    found = []
    for one in paper.structure(pdf):
        kind = str(one["/S"])
        if kind == "/Figure" and not str(one.get("/Alt", "")).strip():
            found.append("a picture without words")
        if kind == "/TH" and one.get("/A", {}).get("/Scope") not in {"/Row", "/Column"}:
            found.append("a header cell of neither row nor column")
        if kind == "/LI" and not set(kids(one)) <= {"/Lbl", "/LBody"}:
            found.append(f"an item without a body: {kids(one)}")
        for kid in children(one):
            if kid["/P"].get_object() != one:
                found.append(f"{kid['/S']} is said to be elsewhere")
    return found


def children(element: Any) -> list[Any]:
    held = element.get("/K", [])
    kids = [one.get_object() for one in held] if isinstance(held, list) else [held]
    return [one for one in kids if isinstance(one, dict) and "/S" in one]


def kids(element: Any) -> list[str]:
    return [str(one["/S"]) for one in children(element)]


@pytest.mark.parametrize(("kind", "page"), PRINTS)
def test_every_paper_can_be_heard(client: Client, kind: str, page: Page) -> None:
    client.force_login(UserFactory.create(role=Role.NURSE))
    answer: Any = client.get(reverse(f"documents:{page.name}", args=[subject(page.about)]))
    assert faults(answer.content) == []
    assert {"H1", "P"} <= set(paper.tags(answer.content)), kind


def test_headers_of_columns_and_of_rows() -> None:
    html = (
        '<html lang="en"><head><title>x</title></head><body><table>'
        "<thead><tr><th>Size</th><th>Day</th></tr></thead>"
        "<tbody><tr><th>Small</th><td>Monday</td></tr></tbody></table></body></html>"
    )
    heads = [one for one in paper.structure(pdf_of(html)) if one["/S"] == "/TH"]
    assert [one["/A"]["/Scope"] for one in heads] == ["/Column", "/Column", "/Row"]


@pytest.mark.parametrize("style", ["none", "disc", "disc inside"])
def test_items_have_bodies(style: str) -> None:
    html = (
        '<html lang="en"><head><title>x</title></head><body>'
        f'<ul style="list-style: {style}"><li>One <b>two</b></li></ul></body></html>'
    )
    made = pdf_of(html)
    assert faults(made) == []
    assert paper.tags(made).count("LBody") == 1


def test_a_fault_is_seen() -> None:
    """An inline drawing without a title has no words, and WeasyPrint says nothing."""
    html = (
        '<html lang="en"><head><title>x</title></head><body><svg '
        'xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0L9 9"/></svg>'
        "</body></html>"
    )
    assert faults(pdf_of(html)) == ["a picture without words"]
