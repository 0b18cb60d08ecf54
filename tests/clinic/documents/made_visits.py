"""Visits with findings, decided and signed as the program itself does it."""

from datetime import UTC, datetime
from functools import lru_cache
from typing import Any

import pytest

from clinic.accounts.models import User
from clinic.documents.care_sheet.build import care_sheet
from clinic.documents.care_sheet.density import most_pages
from clinic.documents.care_sheet.pages import pages_of
from clinic.documents.care_sheet.sheet import Sheet
from clinic.documents.patient_language.said import said
from clinic.documents.rendering.pdf import fitting
from clinic.plans.actions.decide import accept_all
from clinic.plans.actions.sign import sign_visit
from clinic.plans.decidables import decidables, own_recommendations
from clinic.plans.decided_item import Decided
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Choice, Decision
from clinic.plans.plan_with_decisions import DecidedPlan, decided_plan
from clinic.visits.actions.start import start_visit
from clinic.visits.models import (
    AbdomenAssessment,
    Assessment,
    Crease,
    PouchingSystem,
    SkinAssessment,
    SkinFinding,
    StomaMeasurement,
)
from clinic.visits.queries import with_parts
from planning import Plan
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.visits import AssessmentFactory, VisitFactory

VISIT_AT = datetime(2026, 3, 2, 10, 30, tzinfo=UTC)


def use_plan(monkeypatch: pytest.MonkeyPatch, plan: Plan) -> None:
    """Whatever is found, the planner answers ``plan``."""
    monkeypatch.setattr("clinic.plans.draft_plan.recommend", lambda _findings, _history: plan)


def assessed(by: User | None = None, **patient: Any) -> Assessment:
    """A draft with one measured stoma and nothing else looked at."""
    stoma = StomaFactory.create(patient=PatientFactory.create(**patient))
    visit = start_visit(stoma=stoma, by=by or UserFactory.create(), at=VISIT_AT)
    made = visit.assessments.get()
    StomaMeasurement.objects.create(
        assessment=made, shape="oval", length_mm=30, width_mm=26, protrusion_mm=8
    )
    return made


def sore_low_down(made: Assessment) -> None:
    """Raw skin towards the feet, a dip, a melted barrier."""
    SkinAssessment.objects.create(assessment=made, state="findings")
    SkinFinding.objects.create(
        assessment=made,
        kind="erosion",
        hours=[5, 6, 7],
        inner_mm=0,
        outer_mm=20,
        pain=True,
        moist=True,
    )
    PouchingSystem.objects.create(assessment=made, erosion_hours=[5, 6, 7], leak_hours=[6])
    Crease.objects.create(assessment=made, hours=[3])


def everything_found(made: Assessment) -> None:
    """Twelve findings, and all else the face can draw."""
    SkinAssessment.objects.create(assessment=made, state="findings")
    kinds = [choice[0] for choice in SkinFinding._meta.get_field("kind").choices or []]
    for hour, kind in enumerate(kinds[:12], start=1):
        SkinFinding.objects.create(
            assessment=made,
            kind=kind,
            hours=[hour],
            position=hour,
            inner_mm=0,
            outer_mm=30,
            itch=True,
        )
    AbdomenAssessment.objects.create(assessment=made, bulge="present", bulge_hours=[9, 10])
    PouchingSystem.objects.create(assessment=made, erosion_hours=[6], leak_hours=[6])
    Crease.objects.create(assessment=made, hours=[3, 9])


def decide(
    made: Assessment,
    plan: Plan,
    *,
    changed: dict[str, str] | None = None,
    dropped: tuple[str, ...] = (),
) -> None:
    """Change and drop as named, accept the rest."""
    decisions = {key: (Choice.CHANGED, words) for key, words in (changed or {}).items()}
    decisions |= dict.fromkeys(dropped, (Choice.DROPPED, ""))
    texts = {one.key: one.text for one in decidables(plan, made)}
    for key, (choice, words) in decisions.items():
        Decision.objects.create(
            assessment=made,
            key=key,
            text=texts[key],
            choice=choice,
            changed_to=words,
            reason="Known to suit",
        )
    accept_all(plan, fresh(made))


def sign(made: Assessment) -> None:
    sign_visit(visit=made.visit, by=made.visit.clinician, at=VISIT_AT)


def signed_as_planned(situation: str) -> Assessment:
    """One of ``AssessmentFactory``'s situations; whatever the planner said was accepted."""
    made = AssessmentFactory.create(**{situation: True})
    plan = draft_plan(fresh(made)).plan
    assert plan is not None
    decide(made, plan)
    sign(made)
    return made


def fresh(made: Assessment) -> Assessment:
    return with_parts().get(pk=made.pk)


def decided(made: Assessment) -> DecidedPlan:
    found = decided_plan(fresh(made))
    assert found is not None
    return found


def all_accepted(plan: Plan, made: Assessment) -> DecidedPlan:
    """``plan`` as if signed with every item accepted, without touching the database."""

    def accepted(item: Any, key: str) -> Decided:
        return Decided(item, key, item.text, Choice.ACCEPTED, "", "", "")

    return DecidedPlan(
        assessment=made,
        plan=plan,
        signed=True,
        flags=tuple(accepted(flag, f"refer:{flag.key}") for flag in plan.red_flags),
        recommendations=tuple(accepted(item, item.key) for item in own_recommendations(plan)),
        follow_up=accepted(plan.follow_up, "follow_up"),
    )


def signed_again(old: Assessment, at: datetime) -> Assessment:
    """A later visit of the same stoma, leaking, signed as planned."""
    visit = VisitFactory.create(patient=old.stoma.patient, happened_at=at)
    made = AssessmentFactory.create(stoma=old.stoma, visit=visit, leaking=True)
    plan = draft_plan(fresh(made)).plan
    assert plan is not None
    decide(made, plan)
    sign(made)
    return made


def sheet_of(made: Assessment, *, large: bool = False, language: str = "") -> Sheet[str]:
    return sheet_from(decided(made), large=large, language=language)


def sheet_from(decided: DecidedPlan, *, large: bool = False, language: str = "") -> Sheet[str]:
    """As printed: in the patient's language unless another is named."""
    own = decided.assessment.visit.patient.sheet_language
    found: Sheet[str] = said(care_sheet(decided, large=large), language or own)
    return found


def printed(sheet: Sheet[str]) -> bytes:
    """As the nurse gets it. The same pages are the same paper, so one serves every test that asks
    for it."""
    return _set_once(tuple(pages_of(sheet)), most_pages(sheet))


@lru_cache(maxsize=40)
def _set_once(pages: tuple[str, ...], at_most: int) -> bytes:
    return fitting(pages, at_most=at_most)
