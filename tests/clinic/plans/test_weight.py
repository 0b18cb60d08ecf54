"""A weight from the scales to the planner: of the person, dated, and unknown where unknown."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest

from clinic.patients.models import Patient
from clinic.plans.bridge import findings_of, history_of
from clinic.plans.course import course_of, course_report
from clinic.trends.figure import figure
from clinic.trends.table import tables_of
from clinic.visits.models import Assessment, OutputAssessment
from clinic.visits.presenters.findings_for_colleagues import finding_lines
from planning.inputs.findings import Weighing
from tests.clinic.plans.signed_visits import accept, reread, sign
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, VisitFactory

pytestmark = pytest.mark.django_db


def weighed(patient: Patient, kg: str | None, *, days: int = 0, **given: Any) -> Assessment:
    """A visit ``days`` after the first one, a draft."""
    at = HAPPENED_AT + timedelta(days=days)
    stoma = given.pop("stoma", None) or StomaFactory(patient=patient)
    visit = given.pop("visit", None) or VisitFactory(patient=patient, happened_at=at)
    made: Assessment = AssessmentFactory(stoma=stoma, visit=visit, well_fitting=True)
    OutputAssessment.objects.update_or_create(
        assessment=made, defaults={"weight_kg": None if kg is None else Decimal(kg)}
    )
    return reread(made)


def signed(assessment: Assessment) -> Assessment:
    for stoma in assessment.visit.assessments.all():
        accept(reread(stoma))
    sign(assessment)
    return reread(assessment)


def test_a_weight_reaches_the_planner_and_an_unknown_one_stays_unknown() -> None:
    assert findings_of(weighed(PatientFactory(), "1.91")).person.weight_kg == 1.91
    assert findings_of(weighed(PatientFactory(), None)).person.weight_kg is None


def test_a_weight_charted_with_one_stoma_counts_for_the_other() -> None:
    patient = PatientFactory()
    one = weighed(patient, "71.5")
    other = weighed(patient, None, visit=one.visit)
    assert findings_of(other).person.weight_kg == 71.5
    own = weighed(patient, "70.9", visit=one.visit)
    assert findings_of(own).person.weight_kg == 70.9


def test_another_visit_lends_no_weight() -> None:
    patient = PatientFactory()
    weighed(patient, "71.5")
    assert findings_of(weighed(patient, None, days=2)).person.weight_kg is None


def test_earlier_weighings_come_with_their_days_oldest_first() -> None:
    """Whichever stoma they were for; no draft, no other person's, no visit without a weight."""
    patient, other = PatientFactory(), PatientFactory()
    signed(weighed(patient, "68.0"))
    signed(weighed(patient, None, days=1))
    signed(weighed(other, "90", days=1))
    signed(weighed(patient, "66.2", days=2))
    weighed(patient, "50", days=3)
    now = weighed(patient, "64.6", days=4)
    assert history_of(now).weighings == (Weighing(4, 68.0), Weighing(2, 66.2))
    assert history_of(weighed(patient, None, days=4)).weighings == history_of(now).weighings


def test_two_stomas_weighed_at_one_visit_are_one_weighing() -> None:
    patient = PatientFactory()
    first = weighed(patient, "68.0")
    weighed(patient, "68.1", visit=first.visit)
    signed(first)
    assert history_of(weighed(patient, None, days=1)).weighings == (Weighing(1, 68.0),)


def test_trend_table_and_letter_say_it() -> None:
    patient = PatientFactory()
    stoma = StomaFactory(patient=patient)
    signed(weighed(patient, "68", stoma=stoma))
    last = signed(weighed(patient, "64.65", stoma=stoma, days=4))
    course = course_of(stoma)
    drawn = figure(course_report(course).series, course.events, today=course.today)
    assert "weight" not in drawn.left_out
    assert "Weight, kg" in drawn.on_paper()
    (found, *_) = tables_of(drawn.tracks)
    at = found.headings.index("Weight")
    assert [row.cells[at] for row in found.rows] == ["64.65 kg", "68 kg"]
    assert any("; weight 64.65 kg" in line for line in finding_lines(last))
