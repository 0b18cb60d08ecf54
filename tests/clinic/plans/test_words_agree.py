"""The record's words and the planner's are one vocabulary, compared member by member."""

from typing import Any

import pytest

from clinic.patients import models as patients
from clinic.plans.bridge.output import SYMPTOMS
from clinic.plans.bridge.person import MATERIALS
from clinic.plans.bridge.stored_values import word
from clinic.referrals.models import Urgency
from clinic.visits import choices
from clinic.visits.models import PersonToday
from clinic.visits.questions.of_output import MUCH_OUTPUT
from planning.evidence.thresholds import OUTPUT_URGENT
from planning.inputs import findings
from planning.results import plan

PAIRS = [
    (choices.Pieces, findings.Pieces),
    (choices.Profile, findings.Profile),
    (choices.Compressibility, findings.Degree),
    (choices.Flexibility, findings.Degree),
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
    (choices.UrineSign, findings.UrineSign),
    (patients.KnownKind, findings.BaselineKind),
    (choices.BloodTests, findings.BloodTests),
    (choices.PouchBlood, findings.PouchBlood),
    (choices.Discharge, findings.Discharge),
    (choices.Calibre, findings.Calibre),
    (choices.ConvexDepth, findings.ConvexDepth),
    (choices.Product, findings.Product),
    (choices.Medicine, findings.Medicine),
    (choices.ChildSign, findings.ChildSign),
    (choices.Circumstance, findings.Circumstance),
    (choices.RemovalReason, findings.RemovalReason),
    (Urgency, plan.Urgency),
]


@pytest.mark.parametrize(("recorded", "planned"), PAIRS, ids=lambda kind: kind.__name__)
def test_same_words_in_the_same_order(recorded: Any, planned: Any) -> None:
    assert list(recorded.values) == [member.value for member in planned]


@pytest.mark.parametrize(
    ("first", "later", "planned"),
    [
        (choices.FIRST_URINE_SIGNS, choices.UrineLook, findings.UrineSign),
        (choices.FIRST_ACCESSORIES, choices.OtherSupply, findings.Accessory),
    ],
)
def test_every_word_of_a_list_asked_in_two_groups_is_in_one(
    first: tuple[str, ...], later: Any, planned: Any
) -> None:
    assert [*first, *later.values] == [member.value for member in planned]
    assert first, "the first group was asked of every visit and holds something"


def test_the_page_asks_about_blood_where_the_planner_lets_it_decide() -> None:
    assert f"output-volume_ml_24h>={OUTPUT_URGENT.value:g}" == MUCH_OUTPUT


def test_every_symptom_is_in_one_group() -> None:
    grouped = [value for words, _, _ in SYMPTOMS for value in words.values]
    assert sorted(grouped) == sorted(symptom.value for symptom in findings.Symptom)


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


def test_every_condition_is_asked_once_on_the_record_or_at_the_visit() -> None:
    asked = [*patients.Patient.STANDING_CONDITIONS, *PersonToday.CONDITIONS, "recent_antibiotics"]
    assert sorted(asked) == sorted(condition.value for condition in findings.Condition)
