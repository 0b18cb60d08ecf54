"""Every page, at a desk's width and a phone's: nothing sideways, nothing unlabelled, no contrast
too low, no target too small for a finger, no script error, no talk with another host."""

from collections.abc import Iterator
from pathlib import Path
from uuid import uuid4

import pytest
from django.urls import reverse
from playwright.sync_api import Page

from clinic.accounts.models import Role, User
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment, ConflictCopy
from clinic.visits.models.nearby import OtherStoma, Wound
from tests.browser.conftest import DESK, PHONE, OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.browser.watch import Watch
from tests.clinic.plans.signed_visits import accept, sign
from tests.factories.accounts import UserFactory
from tests.factories.patients import (
    KnownStateFactory,
    PatientFactory,
    SensitivityFactory,
    StomaFactory,
)
from tests.factories.site_marking import MarkedSiteFactory
from tests.factories.teaching import TaughtPointFactory
from tests.factories.trials import EarlierTrialFactory
from tests.factories.visits import CreaseFactory, PhotoFactory

pytestmark = pytest.mark.browser

FAULTS = (Path(__file__).parent / "page_faults.js").read_text()
Pages = dict[str, str]


def faults(page: Page, *, touch: bool) -> list[str]:
    """What is wrong with the page as it is shown."""
    found = [str(fault) for fault in page.evaluate(FAULTS, {"touch": touch})]
    return list(dict.fromkeys(found))  # alike is said once


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

    def _empty(self) -> Assessment:
        """A draft in which nothing was entered, of somebody with everything unknown."""
        other = SmallClinic(
            self.small.url,
            self.small.nurse,
            PatientFactory.create(family_name="Maximilian-Featherstonehaugh-Underwood"),
            StomaFactory.create(),
        )
        stoma = StomaFactory.create(patient=other.patient)
        return SmallClinic(other.url, other.nurse, other.patient, stoma).draft()

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
            "second-factor": reverse("mfa_index"),
            "password": reverse("account_change_password"),
        }

    def _beside_the_visit(self) -> Pages:
        """What was tried, teaching, a site marked before surgery."""
        patient, stoma = self.small.patient.uuid, self.small.stoma
        trial = EarlierTrialFactory.create(stoma=stoma, ended="2025-01")
        point = TaughtPointFactory.create(stoma=stoma)
        marking = MarkedSiteFactory.create(marking__patient=self.small.patient).marking
        return {
            "tried": reverse("trends:tried", args=[stoma.uuid]),
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
                "clinic": reverse("clinic_details:edit"),
                "users": reverse("accounts:users"),
                "user-add": reverse("accounts:user_add"),
                "user-change": reverse("accounts:user_change", args=[self.small.nurse.uuid]),
                "user-password": reverse("accounts:user_password", args=[self.small.nurse.uuid]),
                "audit": reverse("audit_trail:log"),
            },
        }


PUBLIC = {"sign-in": "account_login", "forgotten": "account_reset_password"}
REFUSED = {
    "refused": ("audit_trail:log", []),
    "not-there": ("charting:visit", [uuid4()]),
}
REFUSALS = {"refused": 403, "not-there": 404, "decide-first": 409}


@pytest.fixture(params=[DESK, PHONE], ids=["desk", "phone"])
def screen(request: pytest.FixtureRequest) -> dict[str, int]:
    """Its width and height in CSS pixels."""
    size: dict[str, int] = request.param
    return size


def walk(page: Page, base: str, pages: Pages) -> Iterator[str]:
    """Open each page; yield what is wrong, by page."""
    width = (page.viewport_size or PHONE)["width"]
    for name, path in pages.items():
        response = page.goto(base + path)
        if response is None or response.status not in {200, REFUSALS.get(name)}:
            yield f"{name}: answered {response and response.status}"
        page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
        yield from (f"{name}: {fault}" for fault in faults(page, touch=width < 500))
        page.evaluate("window.scrollTo(0, 0)")
        shot(page, f"page-{name}")


def test_pages_of_the_nurse(
    small_clinic: SmallClinic, open_page: OpenPage, screen: dict[str, int]
) -> None:
    clinic = FullClinic(small_clinic)
    page = open_page(small_clinic.nurse, viewport=screen)
    assert "\n".join(walk(page, small_clinic.url, clinic.nurses_pages())) == ""


def test_pages_of_the_others(
    small_clinic: SmallClinic, open_page: OpenPage, screen: dict[str, int]
) -> None:
    found: list[str] = []
    for role, pages in FullClinic(small_clinic).others_pages().items():
        user: User = UserFactory.create(role=role)
        found += walk(open_page(user, viewport=screen), small_clinic.url, pages)
    page = open_page(viewport=screen)
    found += walk(page, small_clinic.url, {n: reverse(view) for n, view in PUBLIC.items()})
    assert "\n".join(found) == ""


def test_pages_of_refusals(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch, screen: dict[str, int]
) -> None:
    watch.expected = ("status of 403", "status of 404", "status of 409")
    draft = small_clinic.draft(leaking=True)
    pages = {name: reverse(view, args=args) for name, (view, args) in REFUSED.items()}
    pages["decide-first"] = reverse("documents:care_sheet", args=[draft.uuid])
    page = open_page(small_clinic.nurse, viewport=screen)
    assert "\n".join(walk(page, small_clinic.url, pages)) == ""
