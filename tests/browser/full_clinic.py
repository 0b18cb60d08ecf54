"""One of everything that a page can show, and the addresses of all pages by who reads them."""

from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.patients.models import Restriction
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment, ConflictCopy
from clinic.visits.models.nearby import OtherStoma, Wound
from tests.browser.conftest import SmallClinic
from tests.clinic.plans.signed_visits import accept, sign
from tests.factories.complications import ComplicationFactory
from tests.factories.patient_answers import AnswersFactory
from tests.factories.patients import (
    KnownStateFactory,
    PatientFactory,
    SensitivityFactory,
    StomaFactory,
)
from tests.factories.repeats import RepeatFactory
from tests.factories.site_marking import MarkedSiteFactory
from tests.factories.teaching import TaughtPointFactory
from tests.factories.trials import EarlierTrialFactory
from tests.factories.visits import AssessmentFactory, CreaseFactory, PhotoFactory

Pages = dict[str, str]
#: The months of the visits below, and somebody behind a number of them.
MONTHS = "?since=Jan+2025&until=Dec+2025"
LEAKED = "of=prevalence&kind=leak&which=found"


class FullClinic:
    """One of everything that a page can show."""

    def __init__(self, small: SmallClinic) -> None:
        self.small = small
        self.signed = small.draft(leaking=True, measurement__colour="black_brown_grey")
        accept(self.signed)
        sign(self.signed)
        self.ordered = small.draft(leaking=True)
        accept(self.ordered)
        sign(self.ordered)
        self.decided = self._somebody("Thimblewood").draft(leaking=True)
        accept(self.decided)
        self.draft = small.draft(prolapse=True, abdomen__creases="present")
        CreaseFactory.create(assessment=self.draft)
        Wound.objects.create(assessment=self.draft, hours=[2, 3])
        OtherStoma.objects.create(assessment=self.draft, hours=[9])
        self.known = KnownStateFactory.create(stoma=small.stoma)
        self.photo = PhotoFactory.create(assessment=self.draft)
        self.empty = self._empty()
        self.copy = ConflictCopy.objects.create(
            assessment=self.draft,
            by=small.nurse,
            base_version=0,
            data={"visit-note": ["Mine"], "stoma-length_mm": ["44"]},
        )
        self.referral = Referral.objects.all()[0]
        self.staff = PatientFactory.create(family_name="Quillfeather")
        Restriction.objects.create(patient=self.staff, why="staff", set_by=small.nurse)

    def _empty(self) -> Assessment:
        """A draft in which nothing was entered, of somebody with everything unknown."""
        return self._somebody("Maximilian-Featherstonehaugh-Underwood").draft()

    def _somebody(self, family_name: str) -> SmallClinic:
        """The same clinic round another person: a stoma has one open draft."""
        person = PatientFactory.create(family_name=family_name)
        stoma = StomaFactory.create(patient=person)
        return SmallClinic(self.small.url, self.small.nurse, person, stoma)

    def nurses_pages(self) -> Pages:
        patient, stoma = self.small.patient.uuid, self.small.stoma.uuid
        sensitivity = SensitivityFactory.create(patient=self.small.patient).uuid
        return {
            "day": reverse("clinic_day:day"),
            "find": reverse("patients:find"),
            "register": reverse("patients:register"),
            "record": reverse("patients:record", args=[patient]),
            "record-empty": reverse("patients:record", args=[self.empty.visit.patient.uuid]),
            "correct": reverse("patients:correct", args=[patient]),
            "contacts": reverse("patients:contacts", args=[patient]),
            "task-add": reverse("tasks:add", args=[patient]),
            "sensitivity-add": reverse("patients:sensitivity_add", args=[patient]),
            "sensitivity-remove": reverse(
                "patients:sensitivity_remove", args=[patient, sensitivity]
            ),
            "stoma-add": reverse("patients:stoma_add", args=[patient]),
            "stoma-correct": reverse("patients:stoma_correct", args=[patient, stoma]),
            "stoma-close": reverse("patients:stoma_close", args=[patient, stoma]),
            "known-agree": reverse("patients:known_agree", args=[patient, stoma]),
            "known-end": reverse("patients:known_end", args=[patient, self.known.uuid]),
            "chart": reverse("charting:chart", args=[self.draft.uuid]),
            "chart-decided": reverse("charting:chart", args=[self.decided.uuid]),
            "chart-empty": reverse("charting:chart", args=[self.empty.uuid]),
            "two-versions": reverse("charting:conflict", args=[self.draft.uuid]),
            "visit": reverse("charting:visit", args=[self.signed.visit.uuid]),
            "addendum": reverse("visits:addendum", args=[self.signed.visit.uuid]),
            "history": reverse("visits:history", args=[self.signed.visit.uuid]),
            "trend": reverse("trends:stoma", args=[stoma]),
            **self._beside_the_visit(),
            "wear-log": reverse("visits:wear_log", args=[stoma]),
            "photos": reverse("visits:photo_add", args=[self.draft.uuid]),
            "measure-photo": reverse("charting:measure_photo", args=[self.photo.pk]),
            "refer": reverse("referrals:refer", args=[self.signed.uuid]),
            "reschedule": reverse("follow_up:reschedule", args=[self.ordered.uuid]),
            "supplies": reverse("documents:supplies", args=[self.ordered.uuid]),
            "day-sheets": reverse("documents:day_sheets"),
            "referrals": reverse("referrals:referrals"),
            "rules": reverse("plans:rules"),
            "referral": reverse("referrals:referral", args=[self.referral.uuid]),
            "security": reverse("accounts:security"),
            "locked": reverse("account_locked"),
            "second-factor": reverse("mfa_index"),
            "password": reverse("account_change_password"),
        }

    def _beside_the_visit(self) -> Pages:
        """What was tried, teaching, a site marked before surgery."""
        patient, stoma = self.small.patient.uuid, self.small.stoma
        trial = EarlierTrialFactory.create(stoma=stoma, ended="2025-01")
        complication = ComplicationFactory.create(stoma=stoma)
        point = TaughtPointFactory.create(stoma=stoma)
        marking = MarkedSiteFactory.create(marking__patient=self.small.patient).marking
        repeat = RepeatFactory.create(assessment=self.signed, length_mm=31, first_length_mm=30)
        AnswersFactory.create(assessment=self.signed)
        AnswersFactory.create(assessment=self.ordered, worry=3, sure=8)
        today = self._somebody("Umberfield")
        now = AssessmentFactory.create(
            stoma=today.stoma,
            visit__patient=today.patient,
            visit__happened_at=timezone.now(),
            leaking=True,
        )
        return {
            "repeat": reverse("measuring_error:chart", args=[now.uuid]),
            "repeat-late": reverse("measuring_error:chart", args=[self.draft.uuid]),
            "measured-twice": reverse("measuring_error:show", args=[repeat.uuid]),
            "questions": reverse("patient_answers:ask", args=[now.uuid]),
            "questions-answered": reverse("patient_answers:ask", args=[self.signed.uuid]),
            "tried": reverse("trends:tried", args=[stoma.uuid]),
            "complications": reverse("complications:of_stoma", args=[stoma.uuid]),
            "complication-add": reverse("complications:add", args=[stoma.uuid]),
            "complication-remove": reverse("complications:remove", args=[complication.uuid]),
            "trial-add": reverse("trials:add", args=[stoma.uuid]),
            "trial-remove": reverse("trials:remove", args=[trial.uuid]),
            "teaching": reverse("teaching:show", args=[stoma.uuid]),
            "teaching-add": reverse("teaching:add", args=[stoma.uuid]),
            "teaching-withdraw": reverse("teaching:withdraw", args=[point.uuid]),
            "marking": reverse("site_marking:show", args=[marking.uuid]),
            "marking-add": reverse("site_marking:add", args=[patient]),
            "marking-used": reverse("site_marking:used", args=[marking.uuid, stoma.uuid]),
        }

    def others_pages(self) -> dict[Role, Pages]:
        return {
            Role.SURGEON: {
                "day-surgeon": reverse("clinic_day:day"),
                "referral-answer": reverse("referrals:referral", args=[self.referral.uuid]),
            },
            Role.DESK: {
                "day-desk": reverse("clinic_day:day"),
                "record-desk": reverse("patients:record", args=[self.small.patient.uuid]),
            },
            Role.LEAD: {
                "measures": reverse("measures:clinic"),
                "measures-tried": reverse("measures:tried"),
                "measures-by-quarter": reverse("measures:over_time") + MONTHS,
                "measures-people": f"{reverse('measures:people')}{MONTHS}&{LEAKED}",
                "measuring-error": reverse("measuring_error:clinic"),
                "clinic": reverse("clinic_details:edit"),
                "users": reverse("accounts:users"),
                "user-add": reverse("accounts:user_add"),
                "user-change": reverse("accounts:user_change", args=[self.small.nurse.uuid]),
                "user-password": reverse("accounts:user_password", args=[self.small.nurse.uuid]),
                "audit": reverse("audit_trail:log"),
                "restricted": reverse("audit_trail:restricted"),
                "restrict": reverse("patients:restrict", args=[self.small.patient.uuid]),
                "asked-why": reverse("patients:open_restricted", args=[self.staff.uuid]),
            },
        }
