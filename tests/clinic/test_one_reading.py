"""What a page reads once: never older than the last write, never across pages."""

from typing import Any

import pytest
from django.http import HttpRequest, HttpResponse

from clinic.one_reading import once_a_reading, one_reading, one_reading_middleware
from clinic.patients.models import Stoma
from clinic.patients.models.stoma import Site
from tests.factories.patients import StomaFactory

pytestmark = pytest.mark.django_db


@once_a_reading
def _site(stoma: int) -> str:
    return Stoma.objects.get(pk=stoma).site


def test_a_question_is_asked_once_of_each_row(django_assert_num_queries: Any) -> None:
    one, other = StomaFactory(), StomaFactory()
    with one_reading(), django_assert_num_queries(2):
        assert [_site(one.pk), _site(one.pk), _site(other.pk)] == [one.site, one.site, other.site]


def test_what_was_written_is_read_again() -> None:
    stoma = StomaFactory(site=Site.RIGHT_LOWER)
    with one_reading():
        assert _site(stoma.pk) == Site.RIGHT_LOWER
        Stoma.objects.filter(pk=stoma.pk).update(site=Site.LEFT_LOWER)
        assert _site(stoma.pk) == Site.LEFT_LOWER


def test_a_locked_row_is_read_again(django_assert_num_queries: Any) -> None:
    stoma = StomaFactory()
    with one_reading(), django_assert_num_queries(3):
        _site(stoma.pk)
        Stoma.objects.select_for_update().get(pk=stoma.pk)
        _site(stoma.pk)


@pytest.mark.parametrize(("method", "asked"), [("GET", 1), ("HEAD", 1), ("POST", 2), ("PUT", 2)])
def test_only_a_page_that_is_looked_at_remembers(
    method: str, asked: int, django_assert_num_queries: Any
) -> None:
    stoma = StomaFactory()
    request = HttpRequest()
    request.method = method

    def answer(_: HttpRequest) -> HttpResponse:
        return HttpResponse(_site(stoma.pk) + _site(stoma.pk))

    with django_assert_num_queries(asked):
        one_reading_middleware(answer)(request)
    with django_assert_num_queries(asked):
        one_reading_middleware(answer)(request)
