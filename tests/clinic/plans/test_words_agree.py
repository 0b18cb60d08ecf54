"""The record's words and the planner's are one vocabulary, compared member by member."""

from typing import Any

import pytest

from clinic.patients import models as patients
from clinic.plans.bridge.person import MATERIALS
from clinic.plans.bridge.stored_values import word
from clinic.referrals.models import Urgency
from clinic.visits import choices
from planning.inputs import findings
from planning.results import plan

PAIRS = [
    (choices.Pieces, findings.Pieces),
    (choices.Profile, findings.Profile),
    (choices.Degree, findings.Degree),
    (choices.OpeningKind, findings.OpeningKind),
    (choices.PouchKind, findings.PouchKind),
    (choices.Accessory, findings.Accessory),
    (choices.LumenPosition, findings.LumenPosition),
    (choices.Colour, findings.Colour),
    (choices.Turgor, findings.Turgor),
    (choices.Oedema, findings.Oedema),
    (choices.Bleeding, findings.Bleeding),
    (choices.SkinKind, findings.SkinKind),
    (choices.Contour, findings.Contour),
    (choices.Firmness, findings.Firmness),
    (choices.Posture, findings.Posture),
    (choices.Consistency, findings.Consistency),
    (choices.Symptom, findings.Symptom),
    (choices.UrineSign, findings.UrineSign),
    (choices.RemovalReason, findings.RemovalReason),
    (Urgency, plan.Urgency),
]


@pytest.mark.parametrize(("recorded", "planned"), PAIRS, ids=lambda kind: kind.__name__)
def test_same_words_in_the_same_order(recorded: Any, planned: Any) -> None:
    assert list(recorded.values) == [member.value for member in planned]


@pytest.mark.parametrize(
    ("recorded", "planned"),
    [
        (patients.StomaKind, findings.StomaKind),
        (patients.Construction, findings.Construction),
        (patients.Dexterity, findings.Ability),
        (patients.PouchChanger, findings.ChangedBy),
    ],
    ids=lambda kind: kind.__name__,
)
def test_every_word_of_the_patients_record_has_its_planner_word(
    recorded: Any, planned: Any
) -> None:
    assert {word(planned, value) for value in recorded.values} == set(planned)


def test_eyesight_uses_the_planners_words() -> None:
    assert {word(findings.Ability, v) for v in patients.Eyesight.values} <= set(findings.Ability)


def test_every_material_is_carried_over() -> None:
    assert set(MATERIALS) == set(patients.Material)
    assert set(MATERIALS.values()) == set(findings.Material)


def test_every_standing_condition_is_one_the_planner_asks_about() -> None:
    asked = {condition.value for condition in findings.Condition} - {"recent_antibiotics"}
    assert set(patients.Patient.STANDING_CONDITIONS) == asked
