"""The demo's own rules: whom to sign in as, and whose database it may fill."""

import os

import pytest
from django.core.management.base import CommandError

from clinic.bootstrap.address import Address
from clinic.bootstrap.start import EMBEDDED
from clinic.management.commands import demo
from tests.factories.accounts import UserFactory

INVENTED = (("nurse", "a long invented phrase", "stoma-care nurse"),)


@pytest.fixture
def _invented(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(demo, "demo_accounts", lambda: INVENTED)
    monkeypatch.delenv(EMBEDDED, raising=False)


@pytest.mark.usefixtures("_invented")
def test_the_welcome_names_the_address_and_every_account() -> None:
    text = demo.welcome(Address("127.0.0.1", 8000))
    assert "http://127.0.0.1:8000/" in text
    assert ["nurse", *INVENTED[0][1].split(), *INVENTED[0][2].split()] in [
        line.split() for line in text.splitlines()
    ]


@pytest.mark.django_db
@pytest.mark.usefixtures("_invented")
def test_a_database_with_only_the_demos_accounts_may_be_filled() -> None:
    UserFactory.create(username="nurse")
    demo.refuse_foreign_accounts()


@pytest.mark.django_db
@pytest.mark.usefixtures("_invented")
def test_a_database_in_which_anyone_else_works_is_left_alone() -> None:
    UserFactory.create(username="someone-real")
    with pytest.raises(CommandError, match="not the demo's"):
        demo.refuse_foreign_accounts()


@pytest.mark.django_db
@pytest.mark.usefixtures("_invented")
def test_the_embedded_database_is_the_demos_to_fill(monkeypatch: pytest.MonkeyPatch) -> None:
    UserFactory.create(username="added-while-trying-it-out")
    monkeypatch.setenv(EMBEDDED, "yes")
    demo.refuse_foreign_accounts()
    assert os.environ[EMBEDDED]
