"""Every kind of paper that is declared can be printed in every language, and is put on record."""

from typing import Any
from uuid import UUID

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.documents.kinds import PAPERS, Kind, Page
from clinic.documents.models import PrintedDocument
from clinic.patients.models import SheetLanguage
from tests.clinic.documents import paper
from tests.clinic.documents.made_visits import signed_as_planned
from tests.clinic.plans.signed_visits import referred
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db
PRINTS = [
    pytest.param(kind, page, id=page.name)
    for kind, declared in PAPERS.items()
    for page in declared.pages
    if page.prints
]


def subject(about: str) -> UUID:
    """Something to print a paper about, as its address names it."""
    if about == "referral":
        return referred().uuid
    made = signed_as_planned("leaking")
    return made.stoma.uuid if about == "stoma" else made.uuid


#: Each language, and either size; what each paper makes of both is in its own tests.
ASKED = (("en", "normal"), ("es", "large"), ("ar", "normal"))


def test_every_language_is_asked_for() -> None:
    assert [language for language, _ in ASKED] == SheetLanguage.values


@pytest.mark.parametrize(("kind", "page"), PRINTS)
def test_it_prints_in_every_language(client: Client, kind: Kind, page: Page) -> None:
    client.force_login(UserFactory.create(role=Role.NURSE))
    address = reverse(f"documents:{page.name}", args=[subject(page.about)])
    for language, size in ASKED:
        answer: Any = client.get(address, {"language": language, "print": size})
        assert answer["Content-Type"] == "application/pdf", (page.name, language, size)
        written = language if PAPERS[kind].for_patient else SheetLanguage.ENGLISH
        catalogue: Any = paper.reader(answer.content).trailer["/Root"]
        assert catalogue["/Lang"] == written, (page.name, language)
        assert paper.whole_text(answer.content)
        stored = PrintedDocument.objects.latest("id")
        assert (stored.kind, stored.language) == (kind, written)
