"""The database is behind every form rule: rows that no form would pass are refused."""

from datetime import date
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, connection, transaction
from pytest_django.fixtures import DjangoAssertNumQueries

from clinic.visits import models
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

WRONG: dict[str, tuple[type, dict[str, Any]]] = {
    "length beyond range": (models.StomaMeasurement, {"length_mm": 301}),
    "a width of nothing": (models.StomaMeasurement, {"width_mm": 0}),
    "protrusion too deep": (models.StomaMeasurement, {"protrusion_mm": -151}),
    "lumen at thirteen": (models.StomaMeasurement, {"lumen_hour": 13}),
    "axis at zero": (models.StomaMeasurement, {"axis_hour": 0}),
    "eleven radii": (models.StomaMeasurement, {"radii_mm": [15] * 11}),
    "an unknown colour": (models.StomaMeasurement, {"colour": "tartan"}),
    "separated nowhere": (
        models.StomaMeasurement,
        {"junction": "separated", "separation_hours": []},
    ),
    "hours of an intact join": (
        models.StomaMeasurement,
        {"junction": "intact", "separation_hours": [3]},
    ),
    "separation at thirteen": (
        models.StomaMeasurement,
        {"junction": "separated", "separation_hours": [13]},
    ),
    "an unknown symptom of a group": (models.OutputAssessment, {"fluid_symptoms": ["rigors"]}),
    "leaks of no barriers": (models.PouchingSystem, {"leaks": 3}),
    "more leaks than barriers": (models.PouchingSystem, {"leaks": 11, "leak_barriers": 10}),
    "a part of no colour": (models.ColourPart, {"colour": "", "hours": [3]}),
    "a part of an unknown colour": (models.ColourPart, {"colour": "tartan", "hours": [3]}),
    "a part at no hour": (models.ColourPart, {"colour": "dusky", "hours": []}),
    "a part at thirteen": (models.ColourPart, {"colour": "dusky", "hours": [13]}),
    "no product begun": (models.BegunProduct, {"product": "", "days": 3}),
    "an unknown product begun": (models.BegunProduct, {"product": "glue"}),
    "an unknown look of the urine": (models.OutputAssessment, {"urine_looks": ["crystals"]}),
    "an unknown further supply": (models.PouchingSystem, {"more_accessories": ["ring"]}),
    "an unknown state of blood tests": (models.PersonToday, {"blood_tests": "soon"}),
    "a day on which nothing was begun": (models.PouchingSystem, {"begun_days": 3}),
    "a class of depth of a flat barrier": (
        models.PouchingSystem,
        {"profile": "flat", "convex_depth": "deep"},
    ),
    "fascia seen in an intact join": (
        models.StomaMeasurement,
        {"junction": "intact", "separation_fascia_seen": True},
    ),
    "a new prolapse where there is none": (
        models.StomaMeasurement,
        {"prolapse": "none", "prolapse_new": True},
    ),
    "a hard bulge where there is none": (
        models.AbdomenAssessment,
        {"bulge": "none", "bulge_hard": True},
    ),
    "weeks of no pregnancy": (models.PersonToday, {"pregnant": False, "pregnant_weeks": 20}),
    "weeks of a pregnancy not asked about": (models.PersonToday, {"pregnant_weeks": 20}),
    "an unknown medicine": (models.PersonToday, {"medicines": ["tonic"]}),
    "a wound at no hour": (models.Wound, {"hours": []}),
    "another stoma at thirteen": (models.OtherStoma, {"hours": [13]}),
    "a circumstance while still on": (
        models.WearEpisode,
        {"on": date(2025, 5, 1), "circumstance": "overfull"},
    ),
    "an unknown skin state": (models.SkinAssessment, {"state": "so-so"}),
    "an unknown kind": (models.SkinFinding, {"kind": "scuff", "hours": [6]}),
    "a finding at no hour": (models.SkinFinding, {"kind": "ulcer", "hours": []}),
    "a finding at hour zero": (models.SkinFinding, {"kind": "ulcer", "hours": [0]}),
    "outer inside inner": (
        models.SkinFinding,
        {"kind": "ulcer", "hours": [6], "inner_mm": 20, "outer_mm": 20},
    ),
    "a crease at no hour": (models.Crease, {"hours": []}),
    "a crease too deep": (models.Crease, {"hours": [3], "depth_mm": 301}),
    "an unknown posture": (models.Crease, {"hours": [3], "postures": ["cartwheel"]}),
    "a bulge at no hour": (models.AbdomenAssessment, {"bulge": "present", "bulge_hours": []}),
    "hours of no bulge": (models.AbdomenAssessment, {"bulge": "none", "bulge_hours": [3]}),
    "an unknown symptom": (models.OutputAssessment, {"symptoms": ["boredom"]}),
    "volume beyond range": (models.OutputAssessment, {"volume_ml_24h": 20001}),
    "pain of eleven": (models.OutputAssessment, {"pain_0_10": 11}),
    "an opening of nothing": (models.PouchingSystem, {"opening_length_mm": 0}),
    "an unknown accessory": (models.PouchingSystem, {"accessories": ["ribbon"]}),
    "leak at hour thirteen": (models.PouchingSystem, {"leak_hours": [13]}),
    "off before on": (
        models.WearEpisode,
        {"on": date(2025, 5, 4), "off": date(2025, 5, 1), "reason": "leak"},
    ),
    "off without a reason": (models.WearEpisode, {"on": date(2025, 5, 1), "off": date(2025, 5, 2)}),
    "a reason while still on": (models.WearEpisode, {"on": date(2025, 5, 1), "reason": "leak"}),
    "an unknown section": (models.Assessment, {"not_looked_at": ["knees"]}),
}


@pytest.mark.parametrize("case", WRONG)
def test_refused_by_the_database(case: str) -> None:
    model, values = WRONG[case]
    assessment = AssessmentFactory()
    with pytest.raises(DatabaseError, match=r"constraint"), transaction.atomic():
        write(assessment, model, values)


def write(assessment: models.Assessment, model: Any, values: dict[str, Any]) -> None:
    """Past every form, straight into the table."""
    if model is models.Assessment:
        models.Assessment.objects.filter(pk=assessment.pk).update(**values)
    else:
        model.objects.create(assessment=assessment, **values)


def test_one_product_begun_twice_is_refused_when_the_save_ends() -> None:
    assessment = AssessmentFactory()
    for days in (3, 9):
        models.BegunProduct.objects.create(assessment=assessment, product="ring", days=days)
    with pytest.raises(DatabaseError, match="begun_row_product_once"):
        connection.check_constraints()


def test_two_barriers_at_once_are_refused_when_the_save_ends() -> None:
    assessment = AssessmentFactory()
    on = {"assessment": assessment, "reason": "leak"}
    models.WearEpisode.objects.create(on=date(2025, 5, 1), off=date(2025, 5, 4), **on)
    models.WearEpisode.objects.create(on=date(2025, 5, 3), off=date(2025, 5, 6), **on)
    with pytest.raises(DatabaseError, match="wear_no_overlap"):
        connection.check_constraints()


def test_unknown_everywhere_is_accepted() -> None:
    """A constraint that could not tell unknown from wrong would refuse this row."""
    assessment = AssessmentFactory()
    for model in (
        models.StomaMeasurement,
        models.SkinAssessment,
        models.AbdomenAssessment,
        models.OutputAssessment,
        models.PouchingSystem,
    ):
        row = model.objects.create(assessment=assessment)
        row.refresh_from_db()
        values = {f.name: getattr(row, f.name) for f in model._meta.fields}
        del values["id"], values["assessment"]
        assert set(values.values()) <= {None, ""}


#: Of these Django cannot ask beforehand; their forms refuse them.
LEFT_TO_FORMS = {"eleven radii", "off before on"}


@pytest.mark.parametrize("case", sorted(WRONG.keys() - LEFT_TO_FORMS))
def test_what_the_database_refuses_is_said_before_it(case: str) -> None:
    """Asked all at once, each still has its say."""
    model, values = WRONG[case]
    row = AssessmentFactory() if model is models.Assessment else None
    if row is None:
        row = model(assessment=AssessmentFactory(), **values)
    else:
        row.not_looked_at = values["not_looked_at"]
    with pytest.raises(ValidationError):
        row.validate_constraints()


def test_dozens_of_rules_that_hold_cost_one_question(
    django_assert_num_queries: DjangoAssertNumQueries,
) -> None:
    measured = models.StomaMeasurement(assessment=AssessmentFactory(), length_mm=28)
    assert len(measured._meta.constraints) > 20
    with django_assert_num_queries(3):  # the question in a savepoint
        measured.validate_constraints()
    measured.length_mm = 301
    measured.validate_constraints(exclude={"length_mm"})
