"""A signed visit for reading: each line says what it is about."""

import pytest

from clinic.patients.models import StomaKind
from clinic.visits.presenters.summary import SectionSummary, summary_of
from tests.clinic.plans.signed_visits import reread
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory, OutputFactory

pytestmark = pytest.mark.django_db


def output_of(kind: str, **charted: object) -> SectionSummary:
    stoma = StomaFactory(kind=kind)
    assessment = AssessmentFactory(stoma=stoma, visit__patient=stoma.patient)
    OutputFactory(assessment=assessment, **charted)
    found = summary_of(reread(assessment))
    return next(part for part in found if part.title == "Output and symptoms")


def test_what_was_asked_of_a_list_is_said_under_its_name() -> None:
    found = output_of(
        "ileostomy",
        symptoms=["nausea"],
        others_absent=True,
        belly_symptoms=[],
        belly_others_absent=True,
        fluid_others_absent=False,
    )
    lines = dict(found.lines)
    assert lines["Symptoms today: all others"] == "denied"
    assert lines["Abdomen and output: all others"] == "denied"
    assert lines["Fluids: all others"] == "not all asked"
    assert not [label for label in [*lines, *found.unsaid] if "this list" in label]
    assert "Infection and general appearance: all others" not in [*lines, *found.unsaid]


@pytest.mark.parametrize("kind", StomaKind.values)
def test_urine_in_the_pouch_is_missed_only_at_a_urostomy(kind: str) -> None:
    missed = {"Urine", "Urine: colour, clots, stream"} & set(output_of(kind).unsaid)
    assert len(missed) == (2 if kind == StomaKind.UROSTOMY else 0)


def test_what_was_recorded_is_never_left_out() -> None:
    lines = dict(output_of("ileostomy", urine_signs=["blood"]).lines)
    assert lines["Urine"] == "Blood"
