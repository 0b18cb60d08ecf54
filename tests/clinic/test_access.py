"""Every address of the site, opened as every role and signed out, against one table."""

from collections.abc import Iterator
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from clinic.accounts.models import Role
from clinic.accounts.permissions import ROLE_RIGHTS, Right
from clinic.audit.models import AccessLog
from tests.clinic.access import Open, table
from tests.factories.accounts import UserFactory
from tests.factories.visits import PhotoFactory

# Under the role that production works under: every page needs its rights.
pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("application_role")]
TABLE = table()


def patterns(resolver: URLResolver, space: str = "") -> Iterator[tuple[str, URLPattern]]:
    """Every pattern with its full name, such as "patients:record"."""
    for entry in resolver.url_patterns:
        if isinstance(entry, URLResolver):
            inner = f"{entry.namespace}:" if entry.namespace else ""
            yield from patterns(entry, space + inner)
        else:
            yield f"{space}{entry.name}", entry


URLS = dict(patterns(get_resolver()))


def test_every_address_is_in_the_table_and_no_other() -> None:
    assert set(TABLE) == set(URLS)


def test_the_table_and_the_decorators_say_the_same() -> None:
    takes = {name: row.takes for name, row in TABLE.items() if isinstance(row.takes, Right)}
    decorated = {
        name: url.callback.right for name, url in URLS.items() if hasattr(url.callback, "right")
    }
    assert decorated == takes


def statuses(client: Client, address: str) -> dict[str, int]:
    """What GET and POST get; a redirect to the sign-in page counts as 401."""
    answers = {"GET": client.get(address), "POST": client.post(address)}
    # No page may be kept, no matter who asked for it.
    assert {one.headers["Cache-Control"] for one in answers.values()} == {"no-store"}
    sign_in = reverse("account_login") + "?next="
    return {
        method: 401 if answer.get("Location", "").startswith(sign_in) else answer.status_code
        for method, answer in answers.items()
    }


def test_signed_out_opens_public_pages_only(client: Client) -> None:
    for name, row in TABLE.items():
        got = statuses(client, reverse(name, kwargs=row.parts()))
        if row.takes is Open.PUBLIC:
            assert 401 not in got.values(), name
        else:
            assert got == {"GET": 401, "POST": 401}, name


def may(role: Role, name: str) -> bool:
    """Whether the table lets this role in."""
    takes = TABLE[name].takes
    return not isinstance(takes, Right) or takes in ROLE_RIGHTS[role]


@pytest.fixture
def people() -> dict[Role, Client]:
    """Someone of each role, signed in."""
    clients = {role: Client() for role in Role}
    for role, client in clients.items():
        client.force_login(UserFactory(role=role))
    return clients


@pytest.mark.parametrize("name", sorted(TABLE))
def test_a_role_opens_what_it_has_the_right_to(people: dict[Role, Client], name: str) -> None:
    """Those who may not come first: nothing of the record is touched by them."""
    row = TABLE[name]
    address = reverse(name, kwargs=row.parts())
    for role in Role:
        if not may(role, name):
            got = statuses(people[role], address)
            # 405: the page does not answer that method to anybody.
            assert 403 in got.values(), role
            assert set(got.values()) <= {403, 405}, role
    for role in filter(lambda role: may(role, name), Role):
        got = statuses(people[role], address)
        assert not set(got.values()) & {401, 403}, role
        assert max(got.values()) < 500, role
        # Each has a record of its own, as a post may have changed the last.
        address = reverse(name, kwargs=row.parts())


def test_a_refusal_is_on_record(client: Client) -> None:
    desk = UserFactory(role=Role.DESK)
    client.force_login(desk)
    client.get(reverse("audit_trail:log"))
    row = AccessLog.objects.get(action="was refused")
    assert (row.actor_id, row.subject_kind) == (desk.pk, "audit_trail:log")
    assert row.patient_uuid is None


def test_a_refusal_names_the_patient_it_was_about(client: Client) -> None:
    """By whatever id the address holds: the record's, a stoma's, a visit's, a photo's."""
    photo = PhotoFactory()
    assessment = photo.assessment
    client.force_login(UserFactory(role=Role.DESK))
    for name, row in (
        ("trends:stoma", assessment.stoma),
        ("charting:visit", assessment.visit),
        ("charting:chart", assessment),
        ("visits:photo", photo),
        ("patients:sensitivity_add", assessment.visit.patient),
    ):
        known_by = getattr(row, "uuid", row.pk)
        assert client.get(reverse(name, args=[known_by])).status_code == 403
        said = AccessLog.objects.get(action="was refused", subject_kind=name)
        assert said.patient_uuid == assessment.visit.patient.uuid, name
    # What is not there is about no one.
    client.get(reverse("trends:tried", args=[uuid4()]))
    assert AccessLog.objects.get(subject_kind="trends:tried").patient_uuid is None


def test_somebody_deactivated_is_signed_out_at_once(client: Client) -> None:
    user = UserFactory(role=Role.NURSE)
    client.force_login(user)
    user.is_active = False
    user.save()
    assert client.get(reverse("patients:find")).status_code == 302
