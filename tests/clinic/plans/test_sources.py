"""Beside each reason: the statement's own mark; plans signed earlier still print."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.plans.presenters.sources import citations, cited
from planning.evidence.claims import ALL
from planning.results.plan import Reason
from planning.rulebook import all_rules
from tests.clinic.documents.patient_language import test_earlier_plans
from tests.factories.accounts import UserFactory

STORED = Path(test_earlier_plans.__file__).parent / "earlier_plans"


def named(part: Any) -> Iterator[str]:
    if isinstance(part, dict):
        for key, value in part.items():
            yield from value if key == "sources" else named(value)
    elif isinstance(part, list):
        for value in part:
            yield from named(value)


def test_a_reason_has_the_mark_of_each_statement() -> None:
    (shown,) = cited([Reason("Low.", ("persson2010/colostomy", "mcnichol2021/depth"))])
    assert shown["sources"] == [
        "Persson 2010, Colorectal Dis 12:971 (abstract read)",
        "McNichol 2021, J Wound Ostomy Continence Nurs 48(6):524 (from memory, unverified)",
    ]


def test_two_statements_read_alike_in_one_source_are_named_once() -> None:
    assert len(citations(("persson2010/ileostomy", "persson2010/colostomy"))) == 1


@pytest.mark.parametrize("path", sorted(STORED.glob("*.json")), ids=lambda path: path.stem)
def test_every_source_of_a_plan_signed_earlier_still_has_words(path: Path) -> None:
    ids = set(named(json.loads(path.read_text())))
    for one in ids:
        (words,) = citations((one,))
        assert words != one
        assert " read)" not in words


@pytest.mark.django_db
def test_the_page_of_rules_prints_every_mark_and_every_statement() -> None:
    client = Client()
    client.force_login(UserFactory.create(role=Role.NURSE))
    page = client.get(reverse("plans:rules")).content.decode()
    for claim in ALL:
        anchor = f"said-{claim.id.replace('/', '-')}"
        assert page.count(f'id="{anchor}"') == 1
    linked = {cited for rule in all_rules() for cited in rule.sources if "/" in cited}
    for id_ in linked:
        assert f'href="#said-{id_.replace("/", "-")}"' in page
    assert "Persson 2010, Colorectal Dis 12:971 (abstract read)" in page
    assert "design value of this planner, no source" in page
