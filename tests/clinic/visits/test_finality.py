"""A signed visit is final, for every user and every way: the database itself refuses."""

import uuid
from datetime import date
from typing import Any

import pytest
from django.db import DatabaseError, connection, transaction
from django.utils import timezone

from clinic.patients.models import Stoma
from clinic.visits.models import (
    Addendum,
    Assessment,
    Confirmation,
    ConflictCopy,
    PendingEntry,
    SkinFinding,
    Visit,
)
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory, VisitFactory

pytestmark = pytest.mark.django_db

#: Housekeeping of a draft, no part of the record.
NOT_RECORD = {PendingEntry, ConflictCopy}

CHILDREN: list[Any] = [
    relation.related_model
    for relation in Assessment._meta.related_objects
    if relation.related_model._meta.app_label == "visits"
    and not relation.related_model.__name__.endswith("Event")
    and relation.related_model not in NOT_RECORD
]


def sign(visit: Visit) -> None:
    Visit.objects.filter(pk=visit.pk).update(
        state="signed", signed_at=timezone.now(), signed_by=visit.clinician
    )


def full_assessment() -> Assessment:
    """One row of every kind."""
    assessment = AssessmentFactory(
        leaking=True,
        abdomen__creases="present",
        skin__wounds="present",
        skin__other_stomas="present",
    )
    for model in CHILDREN:
        if not model.objects.filter(assessment=assessment).exists():
            model.objects.create(assessment=assessment, **filled(model, assessment))
    return assessment


def filled(model: Any, assessment: Assessment) -> dict[str, Any]:
    """What a row of this kind cannot be without."""
    if model is not Confirmation:
        return FILL.get(model.__name__, {})
    return {
        "section": "skin",
        "fields": ["skin-state"],
        "against": AssessmentFactory(),
        "by": assessment.visit.clinician,
        "at": timezone.now(),
    }


FILL: dict[str, dict[str, Any]] = {
    "Crease": {"hours": [3]},
    "Wound": {"hours": [3]},
    "ColourPart": {"colour": "dusky", "hours": [3]},
    "BegunProduct": {"product": "ring"},
    "OtherStoma": {"hours": [3]},
    "SkinFinding": {"kind": "erythema", "hours": [6]},
    "WearEpisode": {"on": date(2025, 5, 1)},
    "Photo": {"image": b"x", "width": 1, "height": 1},
}


def test_every_part_of_an_assessment_is_tried() -> None:
    assert {model.__name__ for model in CHILDREN} >= {
        "StomaMeasurement",
        "SkinFinding",
        "SkinAssessment",
        "AbdomenAssessment",
        "Crease",
        "OutputAssessment",
        "OtherStoma",
        "PersonToday",
        "Wound",
        "ColourPart",
        "BegunProduct",
        "PouchingSystem",
        "WearEpisode",
        "Photo",
    }


@pytest.mark.parametrize("model", CHILDREN, ids=lambda m: m.__name__)
@pytest.mark.parametrize("attempt", ["update", "delete"])
def test_no_part_of_a_signed_visit_changes(model: Any, attempt: str) -> None:
    FILL["Photo"]["taken_by"] = VisitFactory().clinician
    assessment = full_assessment()
    rows = model.objects.filter(assessment=assessment)
    assert rows.exists()
    sign(assessment.visit)
    with pytest.raises(DatabaseError, match="signed"), transaction.atomic():
        rows.update(assessment=assessment) if attempt == "update" else rows.delete()
    assert rows.exists()


def test_nothing_is_added_to_a_signed_visit() -> None:
    assessment = AssessmentFactory()
    sign(assessment.visit)
    with pytest.raises(DatabaseError, match="signed"), transaction.atomic():
        SkinFinding.objects.create(assessment=assessment, kind="erythema", hours=[6])


@pytest.mark.parametrize("attempt", ["update", "delete"])
def test_the_signed_visit_itself_stays(attempt: str) -> None:
    visit = VisitFactory()
    sign(visit)
    rows = Visit.objects.filter(pk=visit.pk)
    with pytest.raises(DatabaseError), transaction.atomic():
        rows.update(note="afterwards") if attempt == "update" else rows.delete()
    assert rows.get().note == ""


def test_a_draft_still_changes() -> None:
    """The same statements pass before signing: the refusals above are about signing."""
    assessment = AssessmentFactory(leaking=True)
    assert assessment.skin_findings.update(kind="erythema") == 1
    assert Visit.objects.filter(pk=assessment.visit_id).update(note="still open") == 1
    assert assessment.skin_findings.all().delete()[0] == 1


def test_an_addendum_joins_only_a_signed_visit_and_stays() -> None:
    visit = VisitFactory()
    values = {
        "visit": visit,
        "text": "Phoned: dry now.",
        "by": visit.clinician,
        "at": timezone.now(),
    }
    with pytest.raises(DatabaseError, match="addendum"), transaction.atomic():
        Addendum.objects.create(**values)
    sign(visit)
    addendum = Addendum.objects.create(**values)
    for attempt in (
        lambda: Addendum.objects.filter(pk=addendum.pk).update(text="no"),
        lambda: addendum.delete(),
    ):
        with pytest.raises(DatabaseError), transaction.atomic():
            attempt()


def test_one_assessment_a_stoma_a_visit() -> None:
    assessment = AssessmentFactory()
    with pytest.raises(DatabaseError, match="one_assessment"), transaction.atomic():
        Assessment.objects.create(visit=assessment.visit, stoma=assessment.stoma)


def test_a_closed_stoma_is_not_assessed() -> None:
    visit = VisitFactory()
    stoma = StomaFactory(patient=visit.patient)
    Stoma.objects.filter(pk=stoma.pk).update(closed_on=date(2025, 5, 1))
    with pytest.raises(DatabaseError, match="closed"), transaction.atomic():
        Assessment.objects.create(visit=visit, stoma=stoma)


def test_another_persons_stoma_is_not_assessed() -> None:
    with pytest.raises(DatabaseError, match="another patient"), transaction.atomic():
        Assessment.objects.create(visit=VisitFactory(), stoma=StomaFactory())


def test_every_change_is_in_the_history_and_stays_there() -> None:
    finding = SkinFinding.objects.create(
        id=uuid.uuid4(), assessment=AssessmentFactory(), kind="erythema", hours=[6]
    )
    SkinFinding.objects.filter(pk=finding.pk).update(kind="erosion")
    finding.delete()
    finding_model: Any = SkinFinding
    events = finding_model.pgh_event_models
    assert events  # the tracker is attached
    model = next(iter(events.values()))
    kinds = list(model.objects.order_by("pgh_id").values_list("pgh_label", "kind"))
    assert kinds == [("insert", "erythema"), ("update", "erosion"), ("delete", "erosion")]
    with pytest.raises(DatabaseError), transaction.atomic():
        model.objects.all().delete()


def test_a_finding_is_not_moved_out_of_a_signed_visit() -> None:
    assessment, other = AssessmentFactory(leaking=True), AssessmentFactory()
    sign(assessment.visit)
    with pytest.raises(DatabaseError, match="signed"), transaction.atomic():
        assessment.skin_findings.update(assessment=other)


def test_an_assessment_is_not_moved_out_of_a_signed_visit() -> None:
    assessment = AssessmentFactory()
    other = VisitFactory(patient=assessment.visit.patient)
    sign(assessment.visit)
    with pytest.raises(DatabaseError, match="signed"), transaction.atomic():
        Assessment.objects.filter(pk=assessment.pk).update(visit=other)


def test_an_assessment_is_not_moved_to_another_persons_stoma() -> None:
    assessment = AssessmentFactory()
    with pytest.raises(DatabaseError, match="another patient"), transaction.atomic():
        Assessment.objects.filter(pk=assessment.pk).update(stoma=StomaFactory())


def test_a_visit_stays_with_its_patient() -> None:
    visit = VisitFactory()
    with pytest.raises(DatabaseError, match="stays with its patient"), transaction.atomic():
        Visit.objects.filter(pk=visit.pk).update(patient=StomaFactory().patient)


@pytest.mark.parametrize(
    "table", ["visits_visit", "visits_skinfinding", "plans_plansnapshot", "visits_addendum"]
)
def test_no_table_of_the_record_is_emptied(table: str) -> None:
    with connection.cursor() as cursor:
        # What once let the tests past.
        cursor.execute("SET LOCAL clinic.may_truncate = 'on'")
        with pytest.raises(DatabaseError, match="never emptied"), transaction.atomic():
            cursor.execute(f"TRUNCATE {table} CASCADE")


@pytest.mark.parametrize(
    "contradiction",
    [
        {"skin__state": "intact"},
        {"abdomen__creases": "present"},
        {"skin__wounds": "present"},
        {"skin__other_stomas": "present"},
        {"worn__off": date(2025, 6, 1)},
    ],
)
def test_a_visit_that_contradicts_itself_is_never_final(contradiction: dict[str, Any]) -> None:
    assessment = AssessmentFactory(leaking=True, **contradiction)
    with pytest.raises(DatabaseError, match="contradicts itself"), transaction.atomic():
        sign(assessment.visit)
    sign(AssessmentFactory(leaking=True).visit)  # without the contradiction it is signed


def test_what_is_still_to_correct_is_never_final() -> None:
    assessment = AssessmentFactory()
    PendingEntry.objects.create(assessment=assessment, prefix="stoma", data={})
    with pytest.raises(DatabaseError, match="contradicts itself"), transaction.atomic():
        sign(assessment.visit)
