"""A marking before surgery on paper: both identifiers, every answer, nothing of a withdrawn one."""

from pathlib import Path

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.patients.models import Site
from clinic.site_marking.choices import CRITERIA, POSTURES, Rank, Withdrawn
from clinic.site_marking.models import SiteMarking
from tests.clinic.documents import paper
from tests.factories.accounts import UserFactory
from tests.factories.site_marking import MarkedSiteFactory, SiteMarkingFactory

pytestmark = pytest.mark.django_db


def marked() -> SiteMarking:
    marking: SiteMarking = SiteMarkingFactory(
        patient__family_name="Underhill", note="Comes with her son.", surgeon="P. Lark"
    )
    MarkedSiteFactory(marking=marking, place_x=-45, place_y=-40, sitting=True, bending=False)
    MarkedSiteFactory(marking=marking, rank=Rank.values[1], quadrant=Site.LEFT_LOWER)
    return marking


def printed(client: Client, marking: SiteMarking, role: Role = Role.NURSE, size: str = "a4") -> int:
    client.force_login(UserFactory(role=role))
    url = reverse("documents:site_marking", args=[marking.uuid])
    answer = client.get(url, {"paper": size})
    client.pdf = answer.content  # type: ignore[attr-defined]
    return answer.status_code


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_one_sheet_with_every_answer(client: Client, size: str, tmp_path: Path) -> None:
    marking = marked()
    assert printed(client, marking, size=size) == 200
    pdf = client.pdf  # type: ignore[attr-defined]
    (text,) = paper.page_texts(pdf)
    words = " ".join(text.split())
    assert "Underhill" in words
    assert f"Record {marking.patient.record_number}" in words
    for label in (*CRITERIA.values(), *(f"Checked: {one.lower()}" for one in POSTURES.values())):
        assert label in words
    # Two sites: what neither was checked for is said twice, never left empty.
    assert words.count("not checked") == 2 * len(CRITERIA) + 2 * len(POSTURES) - 2
    assert "Surgeon informed: not known, P. Lark" in words
    assert "Comes with her son." in words
    (drawn,) = [one for one in paper.structure(pdf) if one["/S"] == "/Figure"]
    assert str(drawn["/Alt"]).startswith("The abdomen with the marked sites")
    assert AccessLog.objects.get(action="printed").subject_uuid == marking.uuid


def test_not_of_a_withdrawn_one_and_not_at_the_desk(client: Client) -> None:
    marking = marked()
    assert printed(client, marking, Role.DESK) == 403
    assert printed(client, marking, Role.SURGEON) == 200
    SiteMarking.objects.filter(pk=marking.pk).update(withdrawn_why=Withdrawn.values[0])
    assert printed(client, marking) == 403
