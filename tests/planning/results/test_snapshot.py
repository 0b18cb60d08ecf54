"""Plain data and back."""

import json

import pytest
from hypothesis import given, settings

from planning import Findings, History, InvalidFindings, recommend
from planning.results.snapshot import (
    findings_from_dict,
    findings_to_dict,
    history_from_dict,
    history_to_dict,
    plan_from_dict,
    plan_to_dict,
)
from tests.planning.builders import WELL, leaking
from tests.planning.strategies import findings, histories

quick = settings(max_examples=60)


@quick
@given(findings)
def test_findings_round_trip(found: Findings) -> None:
    assert findings_from_dict(json.loads(json.dumps(findings_to_dict(found)))) == found


@quick
@given(histories)
def test_history_round_trip(history: History) -> None:
    assert history_from_dict(json.loads(json.dumps(history_to_dict(history)))) == history


@quick
@given(findings)
def test_plan_round_trip(found: Findings) -> None:
    plan = recommend(found)
    assert plan_from_dict(json.loads(json.dumps(plan_to_dict(plan)))) == plan


def test_a_plan_with_all_its_parts_comes_back_unchanged() -> None:
    plan = recommend(leaking(protrusion_mm=-6.0))
    assert plan.runner_up is not None
    assert plan_from_dict(plan_to_dict(plan)) == plan


def test_a_plan_stored_before_a_field_was_added_still_reads() -> None:
    plan = recommend(leaking())
    data = plan_to_dict(plan)
    del data["expected_wear"], data["suggested_codes"], data["follow_up"]["patient_text"]
    for line in data["quantities"]:
        del line["until_at_most"], line["note"]
    old = plan_from_dict(data)
    assert old.expected_wear is None
    assert old.suggested_codes == ()
    assert old.follow_up.patient_text is None
    assert old.recommendations == plan.recommendations
    assert plan.suggested_codes


def test_words_and_hours_are_plain_and_ordered() -> None:
    data = findings_to_dict(leaking())
    assert data["system"]["leak"] == [4, 5, 6, 7, 8]
    assert data["stoma"]["kind"] == "ileostomy"
    assert data["skin"][0]["inner_mm"] == 0.0
    assert data["measurement"]["radii_mm"] is None


def test_what_is_left_out_is_not_recorded() -> None:
    data = {"person": {}, "stoma": {"kind": "ileostomy"}}
    found = findings_from_dict(data)
    assert found.skin is None
    assert found.measurement.length_mm is None


@pytest.mark.parametrize(
    ("change", "path"),
    [
        ({"stoma": {"kind": "gastrostomy"}}, "stoma.kind"),
        ({"stoma": {}}, "stoma.kind"),
        ({"measurement": {"length_mm": "wide"}}, "measurement.length_mm"),
        ({"measurement": {"length_mm": True}}, "measurement.length_mm"),
        ({"measurement": {"heigth": 3}}, "measurement.heigth"),
        ({"skin": [{"kind": "erosion", "hours": [13]}]}, "skin[0].hours"),
        ({"skin": [{"kind": "erosion"}]}, "skin[0].hours"),
        ({"skin": {"kind": "erosion"}}, "skin"),
        ({"person": []}, "person"),
        ({"output": {"pain_0_10": 2.5}}, "output.pain_0_10"),
    ],
)
def test_every_misfit_is_named_by_its_path(change: dict[str, object], path: str) -> None:
    with pytest.raises(InvalidFindings) as caught:
        findings_from_dict(findings_to_dict(WELL) | change)
    assert path in [error.path for error in caught.value.errors]


def test_all_misfits_are_reported_at_once() -> None:
    with pytest.raises(InvalidFindings) as caught:
        findings_from_dict({"stoma": {"kind": "x"}, "skin": 3})
    assert {e.path for e in caught.value.errors} == {"person", "stoma.kind", "skin"}


def test_findings_stored_before_rows_were_left_out_still_read() -> None:
    data = findings_to_dict(WELL)
    del data["wear_left_out"]
    assert findings_from_dict(data) == WELL
