"""The log of a stoma as stored: one log, at most two queries, unknown unless kept."""

from datetime import UTC, date, datetime
from typing import Any

import pytest
from django.db import DatabaseError, connection, transaction
from pghistory.models import Events

from clinic.visits.models import WornBarrier
from clinic.visits.wear_log.whole_log import log_of, log_until
from tests.clinic.plans.signed_visits import reread, signed
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory, VisitFactory, WearEpisodeFactory

pytestmark = pytest.mark.django_db


def worn(stoma: Any, on: date, off: date | None = None, reason: str = "planned") -> WornBarrier:
    return WornBarrier.objects.create(
        stoma=stoma, on=on, off=off, reason=reason if off else "", entered_by=UserFactory()
    )


def may(day: int) -> date:
    return date(2025, 5, day)


def visit_on(stoma: Any, day: int) -> Any:
    return VisitFactory(patient=stoma.patient, happened_at=datetime(2025, 5, day, 10, tzinfo=UTC))


def test_never_kept_is_none() -> None:
    assert log_of(StomaFactory()) is None


def test_rows_of_page_signed_and_draft_visits_are_one_log(
    django_assert_num_queries: Any,
) -> None:
    first = signed(well_fitting=True)  # 2 to 6 May, planned
    stoma = first.stoma
    gone = AssessmentFactory(stoma=stoma, visit=visit_on(stoma, 21))
    WearEpisodeFactory(assessment=gone, on=may(14), off=may(15))
    gone.visit.state = "discarded"
    gone.visit.save()
    draft = AssessmentFactory(stoma=stoma, visit=visit_on(stoma, 20))
    WearEpisodeFactory(assessment=draft, on=may(10), off=may(12), reason="leak")
    worn(stoma, may(2), may(6))
    worn(stoma, may(6), may(10))
    worn(stoma, may(12))
    with django_assert_num_queries(2):
        log = log_of(stoma)
    assert log is not None
    assert [(b.on.day, b.off and b.off.day, b.reason) for b in log] == [
        (2, 6, "planned"),
        (6, 10, "planned"),
        (10, 12, "leak"),
        (12, None, ""),
    ]
    assert [len(b.claims) for b in log] == [2, 1, 1, 1]


def test_what_the_plan_of_a_visit_knows() -> None:
    """From the last signed visit up to this one, as known on its day; its own rows first."""
    first = signed(well_fitting=True)  # happened 6 May
    stoma = first.stoma
    now = AssessmentFactory(stoma=stoma, visit=visit_on(stoma, 16))
    WearEpisodeFactory(assessment=now, on=may(13), off=None, reason="")
    worn(stoma, may(1), may(2))
    worn(stoma, may(2), may(6))
    worn(stoma, may(6), may(9), "leak")
    worn(stoma, may(9), may(13), "leak")
    worn(stoma, may(13), may(18), "fell_off")
    worn(stoma, may(18))
    log = log_until(reread(now))
    assert [(b.on.day, b.off and b.off.day) for b in log] == [(13, None), (6, 9), (9, 13)]


@pytest.mark.parametrize(
    "wrong",
    [
        {"on": date(2025, 5, 4), "off": date(2025, 5, 3), "reason": "leak"},
        {"on": date(2025, 5, 4), "off": date(2025, 5, 5)},
        {"on": date(2025, 5, 4), "reason": "leak"},
        {"on": date(2025, 5, 4), "off": date(2025, 5, 5), "reason": "bored"},
        {"on": date(2025, 5, 4), "circumstance": "soaked"},
        {
            "on": date(2025, 5, 4),
            "off": date(2025, 5, 5),
            "reason": "leak",
            "circumstance": "rained on",
        },
        {"on": date(2024, 3, 13)},
        {"on": date(2026, 5, 4)},
        {"on": date(2025, 5, 30), "off": date(2025, 6, 2), "reason": "leak"},
        {"on": date(2025, 4, 30), "off": date(2025, 5, 2), "reason": "leak"},
    ],
    ids=[
        "off before on",
        "no reason",
        "reason while on",
        "unknown reason",
        "a circumstance while on",
        "unknown circumstance",
        "before surgery",
        "after closing",
        "off after closing",
        "overlap",
    ],
)
def test_the_database_refuses(wrong: dict[str, Any]) -> None:
    stoma = StomaFactory(closed_on=date(2025, 6, 1))
    worn(stoma, may(1), may(3))

    def store() -> None:
        WornBarrier.objects.create(stoma=stoma, entered_by=UserFactory(), **wrong)
        with connection.cursor() as cursor:
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")

    with pytest.raises(DatabaseError), transaction.atomic():
        store()


def test_a_barrier_is_not_put_on_in_the_future() -> None:
    with pytest.raises(DatabaseError), transaction.atomic():
        worn(StomaFactory(), date(2999, 1, 1))


def test_a_barrier_stays_with_its_stoma() -> None:
    row = worn(StomaFactory(), may(1))
    row.stoma = StomaFactory()
    with pytest.raises(DatabaseError), transaction.atomic():
        row.save()


def test_a_correction_and_a_removal_leave_their_trace() -> None:
    row = worn(StomaFactory(), may(1), may(4))
    pk = row.pk
    row.reason = "leak"
    row.save()
    row.delete()
    trail = Events.objects.filter(pgh_obj_id=str(pk)).order_by("pgh_created_at")
    assert sorted(e.pgh_label for e in trail) == ["delete", "insert", "update"]
