"""What a person sends to make something: by the name of its address, who sends it, where to and
what; and the kind of row that is there once afterwards."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile
from django.db.models import Model
from django.utils import timezone

from clinic.accounts.models import Role, User
from clinic.clinic_details.models import Holiday
from clinic.complications.models import Complication
from clinic.follow_up.models import FollowUp, Move
from clinic.patient_answers.models import PatientAnswers
from clinic.patients.models import KnownState, Patient, Sensitivity, Stoma
from clinic.referrals.models import Referral
from clinic.repeats.models import RepeatMeasurement
from clinic.site_marking.models import SiteMarking
from clinic.tasks.models import Task
from clinic.teaching.models import TaughtPoint
from clinic.trials.models import EarlierTrial
from clinic.visits.models import Addendum, Assessment, Photo, Visit
from tests.clinic.accounts.test_users import NEW
from tests.clinic.complications.test_register import TYPED as COMPLICATION
from tests.clinic.measuring_error.test_repeats import today as measured_today
from tests.clinic.measuring_error.test_repeats import typed as measured_again
from tests.clinic.patient_answers.test_answers import ALL as ANSWERS
from tests.clinic.patients.test_known_states import TYPED as KNOWN
from tests.clinic.patients.test_rules import PERSON, STOMA
from tests.clinic.plans.signed_visits import referred, signed
from tests.clinic.plans.test_suspected import reacted
from tests.clinic.site_marking.test_site_marking import TYPED as MARKING
from tests.clinic.tasks.test_tasks import typed as task
from tests.clinic.teaching.test_teaching import TYPED as TAUGHT
from tests.clinic.trials.test_earlier_trials import TYPED as TRIAL
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.visits import PIXEL, AssessmentFactory


@dataclass(frozen=True)
class Sending:
    """``parts`` of the address, ``data`` of the form."""

    makes: type[Model]
    parts: dict[str, Any]
    data: dict[str, Any]
    role: Role = Role.NURSE
    #: How many rows it makes.
    rows: int = 1


def _of_patient(makes: type[Model], data: dict[str, Any]) -> Sending:
    return Sending(makes, {"patient": PatientFactory().uuid}, data)


def _of_stoma(makes: type[Model], data: dict[str, Any], rows: int = 1) -> Sending:
    return Sending(makes, {"stoma": StomaFactory().uuid}, data, rows=rows)


def _known() -> Sending:
    stoma = StomaFactory()
    parts = {"patient": stoma.patient.uuid, "stoma": stoma.uuid}
    return Sending(KnownState, parts, KNOWN)


def _at_visit() -> Sending:
    about = AssessmentFactory()
    parts = {"stoma": about.stoma.uuid, "visit": about.visit.uuid}
    return Sending(TaughtPoint, parts, TAUGHT, rows=2)


def _moved() -> Sending:
    follow_up = FollowUp.objects.get(set_by=signed())
    day = timezone.localdate() + timedelta(days=7)
    while day.weekday() > 4:
        day += timedelta(days=1)
    data = {"was": follow_up.due.isoformat(), "day": day.isoformat(), "reason": "away"}
    parts = {"assessment": follow_up.set_by.uuid}
    return Sending(Move, parts, data | {"was_at": "", "late_confirmed": "on"})


def _again() -> Sending:
    about = measured_today()
    data = measured_again(about) | {"measured_by": str(about.visit.clinician.uuid)}
    return Sending(RepeatMeasurement, {"assessment": about.uuid}, data)


def _also() -> Sending:
    about = AssessmentFactory()
    other = StomaFactory(patient=about.visit.patient)
    return Sending(Assessment, {"visit": about.visit.uuid, "stoma": other.uuid}, {})


def _answered(role: Role, data: dict[str, Any]) -> Sending:
    return Sending(Referral, {"referral": referred().uuid}, data, role, rows=0)


SENDINGS: dict[str, Callable[[], Sending]] = {
    "accounts:user_add": lambda: Sending(User, {}, NEW, Role.LEAD),
    "clinic_details:holiday_add": lambda: Sending(
        Holiday, {}, {"day": "25 Dec 2030", "name": "Closed"}, Role.LEAD
    ),
    "complications:add": lambda: _of_stoma(Complication, COMPLICATION),
    "follow_up:reschedule": _moved,
    "measuring_error:chart": _again,
    "patient_answers:ask": lambda: Sending(
        PatientAnswers, {"assessment": AssessmentFactory().uuid}, {"how": "paper", **ANSWERS}
    ),
    "patients:register": lambda: Sending(Patient, {}, PERSON),
    "patients:sensitivity_add": lambda: _of_patient(
        Sensitivity, {"material": "latex", "reaction": "Weals", "confirmed_by_patch_test": "yes"}
    ),
    "patients:stoma_add": lambda: _of_patient(Stoma, STOMA),
    "patients:known_agree": _known,
    "plans:suspected": lambda: Sending(
        Sensitivity, {"assessment": reacted().uuid}, {"material": "protectant film"}
    ),
    "referrals:refer": lambda: Sending(
        Referral,
        {"assessment": AssessmentFactory().uuid},
        {"question": "Is it healing?", "to": "Surgeon", "urgency": "days"},
    ),
    "referrals:answer": lambda: _answered(Role.SURGEON, {"answer": "Come now."}),
    "referrals:received": lambda: _answered(
        Role.NURSE, {"received": "Warm.", "answer_from": "Dr Quill", "came_by": "telephone"}
    ),
    "site_marking:add": lambda: _of_patient(SiteMarking, MARKING),
    "tasks:add": lambda: _of_patient(Task, task()),
    "teaching:add": lambda: _of_stoma(TaughtPoint, TAUGHT, rows=2),
    "teaching:add_at_visit": _at_visit,
    "trials:add": lambda: _of_stoma(EarlierTrial, TRIAL),
    "visits:start": lambda: _of_stoma(Visit, {}),
    "visits:also": _also,
    "visits:addendum": lambda: Sending(
        Addendum, {"visit": signed().visit.uuid}, {"text": "She rang: it is dry again."}
    ),
    "visits:photo_add": lambda: Sending(
        Photo,
        {"assessment": AssessmentFactory().uuid},
        {"picture": SimpleUploadedFile("a.jpg", PIXEL), "caption": "From the left"},
    ),
}
