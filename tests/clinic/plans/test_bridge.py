"""Rows to findings: nothing recorded is dropped, nothing unknown becomes an answer."""

from __future__ import annotations

from dataclasses import asdict, fields, is_dataclass
from datetime import date
from typing import Any

import pytest
from django.db import models as db

from clinic.plans.bridge import findings_of
from clinic.visits import models
from clinic.visits.choices import (
    FIRST_URINE_SIGNS,
    FluidSymptom,
    OtherSupply,
    Symptom,
    UrineLook,
)
from clinic.visits.queries import with_parts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Begun,
    BloodTests,
    Colour,
    ColourPart,
    Findings,
    Material,
    Product,
)
from tests.factories.patients import PatientFactory, SensitivityFactory, StomaFactory
from tests.factories.visits import AssessmentFactory, ended

pytestmark = pytest.mark.django_db

#: Recorded for people to read; no rule of the planner asks.
NOT_PLANNED_FROM: dict[Any, set[str]] = {
    models.StomaMeasurement: {"shape"},
    models.SkinFinding: {"position"},
    models.Crease: {"position"},
    models.Wound: {"position"},
    models.OtherStoma: {"position"},
    models.ColourPart: {"position"},
    models.BegunProduct: {"position"},
    models.WearEpisode: {"position"},
}
#: Needed beside a value for the row to be allowed at all.
WITH: dict[str, dict[str, Any]] = {
    "lumen_hour": {"lumen": "off_centre", "lumen_hour": 1},
    "convex_depth_mm": {"profile": "convex"},
    "separation_hours": {"junction": "separated"},
    "separation_depth_mm": {"junction": "separated", "separation_hours": [3]},
    "separation_base_visible": {"junction": "separated", "separation_hours": [3]},
    "separation_undermined": {"junction": "separated", "separation_hours": [3]},
    "prolapse_extra_mm": {"prolapse": "present"},
    "prolapse_reducible": {"prolapse": "present"},
    "prolapse_painful": {"prolapse": "present"},
    "bulge": {"bulge_hours": [3]},
    "bulge_hours": {"bulge": "present"},
    "bulge_height_mm": {"bulge": "present", "bulge_hours": [3]},
    "bulge_width_mm": {"bulge": "present", "bulge_hours": [3]},
    "bulge_reducible": {"bulge": "present", "bulge_hours": [3]},
    "bulge_painful": {"bulge": "present", "bulge_hours": [3]},
    "others_absent": {"symptoms": ["nausea"]},
    "separation_contaminated": {"junction": "separated", "separation_hours": [3]},
    "separation_fascia_seen": {"junction": "separated", "separation_hours": [3]},
    "prolapse_new": {"prolapse": "present"},
    "prolapse_growing": {"prolapse": "present"},
    "bulge_new": {"bulge": "present", "bulge_hours": [3]},
    "bulge_hard": {"bulge": "present", "bulge_hours": [3]},
    "bulge_skin_changed": {"bulge": "present", "bulge_hours": [3]},
    "belly_others_absent": {"belly_symptoms": ["no_gas"]},
    "fluid_others_absent": {"fluid_symptoms": ["thirst"]},
    "infection_others_absent": {"infection_symptoms": ["pale"]},
    "child_others_absent": {"child_signs": ["sleepy"]},
    "pregnant_weeks": {"pregnant": True},
    "convex_depth": {"profile": "convex"},
    "begun_product": {"begun_product": "barrier", "begun_days": 9},
    "begun_days": {"begun_product": "ring", "begun_days": 9},
    "leaks": {"leaks": 0, "leak_barriers": 1000},
    "leak_barriers": {"leaks": 0, "leak_barriers": 1000},
    "circumstance": {"off": date(2025, 5, 3), "reason": "leak"},
    "off": {"reason": "leak"},
    "reason": {"off": date(2025, 5, 3)},
}
PARTS: list[Any] = [
    models.StomaMeasurement,
    models.SkinAssessment,
    models.SkinFinding,
    models.AbdomenAssessment,
    models.Crease,
    models.Wound,
    models.OtherStoma,
    models.ColourPart,
    models.BegunProduct,
    models.OutputAssessment,
    models.PersonToday,
    models.PouchingSystem,
    models.WearEpisode,
]
REQUIRED: dict[Any, dict[str, Any]] = {
    models.SkinFinding: {"kind": "erythema", "hours": [6]},
    models.Crease: {"hours": [6]},
    models.Wound: {"hours": [6]},
    models.OtherStoma: {"hours": [6]},
    models.ColourPart: {"colour": "pink_red", "hours": [6]},
    models.BegunProduct: {"product": "barrier"},
    models.WearEpisode: {"on": date(2025, 5, 1)},
}


def some_value(column: db.Field[Any, Any]) -> Any:
    """A value that is no default of ``column``."""
    special = {
        "junction": "intact",
        "prolapse": "none",
        "bulge": "present",
        "creases": "none",
        "wounds": "none",
        "other_stomas": "none",
        "state": "intact",
        "radii_mm": [15] * 12,
        "off": date(2025, 5, 3),
        "on": date(2025, 5, 2),
        "outer_mm": 25,
        "temperature_c": 38,
        "highest_c": 38,
    }
    if column.name in special:
        return special[column.name]
    base = getattr(column, "base_field", None)
    if base is not None:
        return [base.choices[0][0]] if base.choices else [3, 4]
    if column.choices:
        return column.choices[-1][0]
    return True if isinstance(column, db.BooleanField) else 4


CASES = [
    pytest.param(model, column.name, id=f"{model.__name__}.{column.name}")
    for model in PARTS
    for column in model._meta.fields
    if column.name not in {"id", "assessment"}
    and column.name not in NOT_PLANNED_FROM.get(model, set())
]


def findings(assessment: models.Assessment) -> Findings:
    return findings_of(with_parts().get(pk=assessment.pk))


@pytest.mark.parametrize(("model", "name"), CASES)
def test_every_recorded_column_reaches_the_planner(model: Any, name: str) -> None:
    value = some_value(model._meta.get_field(name))
    beside = {**REQUIRED.get(model, {}), **WITH.get(name, {})}
    without = AssessmentFactory()
    if name != "reason" and not (name == "bulge" or name.endswith("_hours")):
        model.objects.create(assessment=without, **beside) if name not in {"off"} else None
    ended(without, "discarded")
    filled = AssessmentFactory(stoma=without.stoma)
    model.objects.create(assessment=filled, **{**beside, name: value})
    assert findings(filled) != findings(without)


def leaves(value: Any) -> list[Any]:
    if is_dataclass(value):
        return [leaf for f in fields(value) for leaf in leaves(getattr(value, f.name))]
    return [value]


def test_an_empty_visit_says_nothing_at_all() -> None:
    """Blank part rows, as the page makes them, are as unknown as no rows."""
    assessment = AssessmentFactory()
    for model in PARTS:
        if model not in REQUIRED:
            model.objects.create(assessment=assessment)
    found = findings(assessment)
    said = [
        leaf
        for part in (found.measurement, found.abdomen, found.output, found.system)
        for leaf in leaves(part)
        if leaf not in (None, frozenset())
    ]
    assert said == []
    assert found.skin is None
    assert found.wear is None


@pytest.mark.parametrize(
    ("model", "values", "read", "expected"),
    [
        (models.SkinAssessment, {"state": "intact"}, lambda f: f.skin, ()),
        (models.StomaMeasurement, {"junction": "intact"}, lambda f: f.measurement.junction, ()),
        (models.StomaMeasurement, {"prolapse": "none"}, lambda f: f.measurement.prolapse, ()),
        (models.AbdomenAssessment, {"creases": "none"}, lambda f: f.abdomen.creases, ()),
        (models.AbdomenAssessment, {"bulge": "none"}, lambda f: f.abdomen.bulges, ()),
        (models.SkinAssessment, {"wounds": "none"}, lambda f: f.wounds, ()),
        (models.SkinAssessment, {"other_stomas": "none"}, lambda f: f.other_stomas, ()),
        (models.PouchingSystem, {"leak_hours": []}, lambda f: f.system.leak, ClockHours()),
        (models.PouchingSystem, {"accessories": []}, lambda f: f.system.accessories, frozenset()),
        (models.OutputAssessment, {"volume_ml_24h": 0}, lambda f: f.output.volume_ml_24h, 0.0),
        (models.StomaMeasurement, {"protrusion_mm": 0}, lambda f: f.measurement.protrusion_mm, 0.0),
        (models.StomaMeasurement, {"deep_cut": False}, lambda f: f.measurement.deep_cut, False),
    ],
)
def test_none_and_zero_are_answers(model: Any, values: Any, read: Any, expected: Any) -> None:
    assessment = AssessmentFactory()
    model.objects.create(assessment=assessment, **values)
    given = read(findings(assessment))
    assert given == expected
    assert given is not None


def test_symptoms_not_ticked_are_absent_only_when_somebody_asked() -> None:
    unasked, asked = AssessmentFactory(), AssessmentFactory()
    models.OutputAssessment.objects.create(assessment=unasked, symptoms=["nausea"])
    models.OutputAssessment.objects.create(
        assessment=asked, symptoms=["nausea"], others_absent=True
    )
    assert findings(unasked).output.absent == frozenset()
    assert {str(s) for s in findings(asked).output.absent} >= {"fever", "vomiting"}
    assert "nausea" not in findings(asked).output.absent


def test_an_answer_to_one_group_of_symptoms_says_nothing_of_the_others() -> None:
    """So a visit stored before a group was asked does not claim that it was."""
    assessment = AssessmentFactory()
    models.OutputAssessment.objects.create(assessment=assessment, symptoms=[])
    asked = {str(symptom) for symptom in findings(assessment).output.absent}
    assert asked == set(Symptom.values)
    models.OutputAssessment.objects.filter(assessment=assessment).update(fluid_symptoms=["thirst"])
    assert {str(s) for s in findings(assessment).output.absent} == asked
    assert {str(s) for s in findings(assessment).output.present} == {"thirst"}
    models.OutputAssessment.objects.filter(assessment=assessment).update(fluid_others_absent=True)
    absent = {str(s) for s in findings(assessment).output.absent}
    assert absent == asked | set(FluidSymptom.values) - {"thirst"}


def charted(model: Any, **values: Any) -> Findings:
    """A visit of which only this was charted, past every form."""
    assessment = AssessmentFactory()
    model.objects.create(assessment=assessment, **values)
    return findings(assessment)


@pytest.mark.parametrize(
    ("values", "seen", "unasked"),
    [
        ({}, None, set()),
        # A visit older than the later words: "none" says nothing of them.
        ({"urine_signs": []}, set(), set(UrineLook.values)),
        ({"urine_signs": ["blood"]}, {"blood"}, set(UrineLook.values)),
        # Of the time when all words were in one list.
        ({"urine_signs": ["blood", "clots"]}, {"blood", "clots"}, set()),
        ({"urine_signs": [], "urine_looks": []}, set(), set()),
        ({"urine_signs": [], "urine_looks": ["pink"]}, {"pink"}, set()),
        ({"urine_looks": []}, set(), set(FIRST_URINE_SIGNS)),
    ],
)
def test_no_words_of_the_urine_are_claimed_that_were_not_asked(
    values: dict[str, Any], seen: set[str] | None, unasked: set[str]
) -> None:
    output = charted(models.OutputAssessment, **values).output
    assert output.urine_signs == seen
    assert output.urine_signs_not_asked == unasked


@pytest.mark.parametrize(
    ("values", "worn", "unasked"),
    [
        ({"accessories": ["ring"]}, {"ring"}, set(OtherSupply.values)),
        ({"accessories": ["ring", "tape"]}, {"ring", "tape"}, set()),
        ({"accessories": [], "more_accessories": ["tape"]}, {"tape"}, set()),
    ],
)
def test_a_supply_that_was_not_asked_is_neither_worn_nor_not_worn(
    values: dict[str, Any], worn: set[str], unasked: set[str]
) -> None:
    system = charted(models.PouchingSystem, **values).system
    assert system is not None
    assert {str(one) for one in system.accessories or ()} == worn
    assert {str(one) for one in system.accessories_not_asked} == unasked


def test_parts_and_starts_count_though_nothing_else_of_the_stoma_or_system_is_charted() -> None:
    parts = charted(models.ColourPart, colour="dusky", hours=[3, 4]).measurement.colour_parts
    assert parts == (ColourPart(Colour.DUSKY, ClockHours.of(3, 4)),)
    assert charted(models.StomaMeasurement).measurement.colour_parts is None
    system = charted(models.BegunProduct, product="ring").system
    assert system is not None
    assert system.begun == (Begun(Product.RING, None),)


def test_every_product_begun_is_carried_each_with_its_own_day() -> None:
    assessment = AssessmentFactory()
    models.PouchingSystem.objects.create(
        assessment=assessment, begun_product="paste", begun_days=None
    )
    models.BegunProduct.objects.create(assessment=assessment, product="ring", days=0)
    models.BegunProduct.objects.create(assessment=assessment, product="film", position=1)
    system = findings(assessment).system
    assert system is not None
    assert system.begun == (
        Begun(Product.PASTE, None),
        Begun(Product.RING, 0.0),
        Begun(Product.FILM, None),
    )


def test_blood_tests_are_the_persons() -> None:
    here = AssessmentFactory()
    there = AssessmentFactory(visit=here.visit, stoma__patient=here.visit.patient)
    models.PersonToday.objects.create(assessment=there)
    assert findings(there).output.blood_tests is None
    models.PersonToday.objects.create(assessment=here, blood_tests="taken")
    assert findings(there).output.blood_tests is BloodTests.TAKEN


def test_the_person_is_charted_with_one_stoma_of_the_visit() -> None:
    here = AssessmentFactory()
    there = AssessmentFactory(visit=here.visit, stoma__patient=here.visit.patient)
    models.PersonToday.objects.create(
        assessment=here, medicines=[], pregnant=False, temperature_c=39, child_signs=["sleepy"]
    )
    found = findings(there)
    assert found.person.medicines == frozenset()
    assert {str(c) for c in found.person.has_not} >= {"pregnant"}
    assert found.output.vitals.temperature_c == 39
    assert {str(sign) for sign in found.person.child_present} == {"sleepy"}
    assert found.person.child_absent == frozenset()


def test_no_list_of_medicines_is_not_an_empty_list() -> None:
    assessment = AssessmentFactory()
    models.PersonToday.objects.create(assessment=assessment)
    assert findings(assessment).person.medicines is None


def test_no_sensitivity_row_is_no_answer_until_somebody_asked() -> None:
    unasked = AssessmentFactory(stoma=StomaFactory(patient=PatientFactory()))
    asked = AssessmentFactory(
        stoma=StomaFactory(patient=PatientFactory(no_known_sensitivities=True))
    )
    known = AssessmentFactory()
    SensitivityFactory(patient=known.visit.patient, material="paste")
    assert findings(unasked).person.sensitivities is None
    assert findings(asked).person.sensitivities == frozenset()
    assert findings(known).person.sensitivities == frozenset({Material.PASTE})


def test_days_since_surgery_are_counted_to_the_visit() -> None:
    assessment = AssessmentFactory(stoma__surgery_date=date(2025, 5, 1))
    assert findings(assessment).stoma.days_since_surgery == 5
    unknown = AssessmentFactory(stoma__surgery_date=None, stoma__surgery_date_unknown=True)
    assert findings(unknown).stoma.days_since_surgery is None


def test_the_findings_are_plain_data() -> None:
    assert asdict(findings(AssessmentFactory(leaking=True)))
