"""Rows fetched at once are what Django fetches kind by kind."""

from datetime import date
from typing import Any

import pytest
from django.utils import timezone

from clinic.visits.models import (
    Assessment,
    BegunProduct,
    ColourPart,
    Confirmation,
    OtherStoma,
    PendingEntry,
    Wound,
)
from clinic.visits.queries import with_parts
from tests.factories.accounts import UserFactory
from tests.factories.visits import (
    AssessmentFactory,
    CreaseFactory,
    SkinFindingFactory,
    WearEpisodeFactory,
)

pytestmark = pytest.mark.django_db

ROWS = with_parts()._relations


@pytest.fixture
def charted() -> Assessment:
    """Two rows of each kind, the later one stored first."""
    about: Assessment = AssessmentFactory()
    for place in (2, 1):
        here = {"assessment": about, "position": place, "hours": [place, 9]}
        SkinFindingFactory(**here, outer_mm=10 + place)
        CreaseFactory(**here)
        Wound.objects.create(**here, distance_mm=4, depth_mm=None, pus=True)
        OtherStoma.objects.create(**here, length_mm=30, rests=False)
        ColourPart.objects.create(**here, colour="dusky")
        WearEpisodeFactory(assessment=about, on=date(2025, 5, place), off=date(2025, 5, place))
        typed = {"stoma-length_mm": ["abc", "2.5"], "half": 0.5}
        PendingEntry.objects.create(assessment=about, prefix=f"form-{place}", data=typed)
        Confirmation.objects.create(
            assessment=about,
            section="stoma",
            against=AssessmentFactory(),
            fields=["stoma-length_mm"],
            by=UserFactory(),
            at=timezone.now(),
        )
    for place, product in ((2, "ring"), (1, "paste")):
        BegunProduct.objects.create(assessment=about, position=place, product=product, days=None)
    return about


def test_the_same_rows_with_the_same_values_in_the_same_order(
    charted: Assessment, django_assert_num_queries: Any
) -> None:
    with django_assert_num_queries(2):
        at_once = {one.pk: one for one in with_parts().prefetch_related(None)}
    compared = dict.fromkeys(ROWS, 0)
    for ordinary in Assessment.objects.prefetch_related(*ROWS):
        found = at_once[ordinary.pk]
        for name in ROWS:
            rows = list(getattr(found, name).all())
            expected = getattr(ordinary, name).all()
            assert [_values(row) for row in rows] == [_values(row) for row in expected], name
            assert all(row.assessment is found for row in rows)
            compared[name] += len(rows)
    assert compared == dict.fromkeys(ROWS, 2)


def _values(row: Any) -> list[tuple[str, type, Any]]:
    """Of each column its value, and its type: 2.5 is not Decimal("2.5")."""
    held = [(f.attname, getattr(row, f.attname)) for f in row._meta.concrete_fields]
    return [(name, type(value), value) for name, value in held]


def test_what_hangs_on_rows_is_fetched_where_there_are_rows(
    charted: Assessment, django_assert_num_queries: Any
) -> None:
    other = Assessment.objects.exclude(pk=charted.pk)[0]
    with django_assert_num_queries(2):
        with_parts().get(pk=other.pk)
    found = with_parts().get(pk=charted.pk)
    with django_assert_num_queries(0):
        assert all(row.by.username for row in found.confirmations.all())
        assert all(row.against.visit.pk for row in found.confirmations.all())


def test_rows_of_a_set_can_still_be_narrowed(charted: Assessment) -> None:
    found = with_parts().get(pk=charted.pk)
    assert [row.position for row in found.crease_rows.filter(position=2)] == [2]
    assert not with_parts().none()
