"""What a cutting template says, when there is none, and who may print it."""

from dataclasses import replace
from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import Settings

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.cutting_template.build import NoTemplate, Template, cutting_template
from clinic.documents.cutting_template.template_drawing import Side
from clinic.documents.patient_language.said import english
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.patients.models import SheetLanguage
from clinic.visits.models import Assessment
from planning import Plan
from planning.geometry.outline import ellipse
from planning.results.plan import Dimensions, Urgency
from tests.clinic.documents import made_plans, made_visits, paper
from tests.clinic.documents.made_templates import (
    OVAL,
    PROLAPSED,
    asked,
    plan_of,
    printed,
    template_of,
)
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db

NO_SIZES = Dimensions()
STOMA_ONLY = Dimensions(stoma_length_mm=30.0, stoma_width_mm=26.0)


@pytest.fixture
def made() -> Assessment:
    return made_visits.assessed(given_name="Imogen", family_name="Thistledown")


# --- what it says ---------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("side", "named", "never"),
    [
        (Side.FRONT, "Front of the barrier faces you", "mirrored, seen"),
        (Side.BACK, "Back of the barrier faces you (mirrored)", "Front of the barrier faces"),
    ],
)
def test_the_side_that_faces_you_is_named(
    made: Assessment, side: Side, named: str, never: str
) -> None:
    text = paper.whole_text(printed(template_of(plan_of(OVAL), made, side)))
    assert named in text
    assert never not in text
    assert "Top: towards the head" in text


def test_how_to_print_and_what_to_do_if_it_measures_wrong(made: Assessment) -> None:
    text = paper.whole_text(printed(template_of(plan_of(OVAL), made)))
    assert "Print at 100 % (“actual size”). Do not fit to page." in text
    assert "Both rulers measure 100 mm, give or take 1 mm (99 to 101)." in text
    assert "If not, do not cut from this paper." in text
    assert "85.60 × 53.98 mm (ISO/IEC 7810, ID-1)" in text
    assert "do not cut: take the next larger barrier" in text
    assert "common practice, no source" in text


@pytest.mark.parametrize(("days", "old"), [(7, False), (8, True), (60, True)])
def test_an_old_size_says_so_before_anybody_cuts(made: Assessment, days: int, old: bool) -> None:
    """Eight days after a visit that did not know when surgery was: it may still shrink."""
    made.stoma.surgery_date = None
    decided = made_visits.all_accepted(plan_of(OVAL), made)
    today = timezone.localdate(made.visit.happened_at) + timedelta(days=days)
    found = cutting_template(decided, side=Side.FRONT, paper="a4", today=today)
    assert isinstance(found, Template)
    text = paper.whole_text(printed(english(found)))
    assert (f"Measured {days} days ago" in text) is old
    assert ("measure again first, and do not cut to this" in text) is old


def test_the_patient_is_named_on_every_page(made: Assessment) -> None:
    """A prolapse's opening is so large that the checks take a second page."""
    pdf = printed(template_of(plan_of(ellipse(105, 100)), made, paper="letter"))
    texts = paper.page_texts(pdf)
    assert len(texts) == 2
    for text in texts:
        for identifier in ("Imogen Thistledown", made.visit.patient.record_number, "Born "):
            assert identifier in text
        assert "2 March 2026" in text
        assert "Ileostomy, low on your right side" in text


@pytest.mark.parametrize("language", SheetLanguage)
@pytest.mark.parametrize(("size", "side"), [("a4", Side.FRONT), ("letter", Side.BACK)])
def test_a_usual_opening_takes_one_page(
    made: Assessment, side: Side, size: str, language: str
) -> None:
    """An old one, and that of a draft."""
    for outline, changes in ((OVAL, {}), (ellipse(45, 40), {"signed": False, "old": ""})):
        plan = plan_of(outline, convex_depth_class="deep")
        template = template_of(plan, made, side, size, language, **changes)
        assert len(paper.page_texts(printed(template))) == 1


@pytest.mark.parametrize(("size", "language"), [("a4", "en"), ("letter", "es"), ("a4", "ar")])
def test_a_name_of_two_lines_takes_no_second_page(size: str, language: str) -> None:
    made = made_visits.assessed(
        given_name="Maximiliana Wilhelmina Theodora",
        family_name="Featherstonehaugh-Thistledown-Brackwater-Owlsworth",
    )
    template = template_of(plan_of(OVAL), made, paper=size, language=language, old="")
    assert len(paper.page_texts(printed(template))) == 1


def test_sizes_are_in_mm_and_inches(made: Assessment) -> None:
    template = template_of(plan_of(OVAL), made)
    assert plain(template.size) == "34 mm by 30 mm (about 1 5/16 by 1 3/16 inches)"
    assert plain(template.stoma_size) == "30 mm by 26 mm (about 1 3/16 by 1 inches)"
    assert template.gap == "2.0 mm"


def plain(words: str) -> str:
    return words.replace("\N{NO-BREAK SPACE}", " ")


def test_a_draft_says_so_on_every_page(made: Assessment) -> None:
    for signed in (True, False):
        template = template_of(plan_of(PROLAPSED), made, signed=signed)
        for text in paper.page_texts(printed(template)):
            assert ("Not signed yet" in text) is not signed


def test_a_dome_is_cut_only_in_its_flat_middle(made: Assessment) -> None:
    flat = template_of(plan_of(OVAL), made)
    domed = template_of(plan_of(OVAL, convex_depth_class="shallow"), made)
    assert "only within its flat middle" not in paper.whole_text(printed(flat))
    assert "only within its flat middle" in paper.whole_text(printed(domed))


@pytest.mark.parametrize(
    ("supply", "words"),
    [("pre_cut", "The hole comes ready cut."), ("mouldable", "The hole is rolled to size")],
)
def test_a_hole_that_is_not_cut_gets_a_control_circle(
    made: Assessment, supply: str, words: str
) -> None:
    text = paper.whole_text(printed(template_of(plan_of(ellipse(30, 30), supply), made)))
    assert words in text
    assert "Check of the hole: nothing to cut" in text
    assert "Cut along this line" not in text
    assert "Starter hole" not in text


# --- when there is none ---------------------------------------------------------------------
@pytest.mark.parametrize(
    ("plan", "why"),
    [
        (replace(made_plans.LEAK, dimensions=NO_SIZES), "size of the stoma was not recorded"),
        (replace(made_plans.LEAK, dimensions=STOMA_ONLY), "widest part was not recorded"),
        (replace(made_plans.LEAVE_ALONE, dimensions=STOMA_ONLY), "stays as it is"),
        (
            replace(made_plans.LEAK, urgency=Urgency.EMERGENCY, dimensions=STOMA_ONLY),
            "emergency plan",
        ),
        (made_plans.LEAK, "no outline"),
    ],
)
def test_without_an_outline_there_are_words(made: Assessment, plan: Plan, why: str) -> None:
    found = asked(plan, made)
    assert isinstance(found, NoTemplate)
    assert why in found.why


def test_what_the_clinician_decided_otherwise_is_never_drawn(
    made: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = plan_of(OVAL)
    made_visits.use_plan(monkeypatch, plan)
    made_visits.decide(made, plan, changed={"opening": "cut 36 mm round"})
    found = cutting_template(made_visits.decided(made), side=Side.FRONT, paper="a4")
    assert isinstance(found, NoTemplate)
    assert "cut 36 mm round" in found.why


def test_a_dropped_opening_is_never_drawn(
    made: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = plan_of(OVAL)
    made_visits.use_plan(monkeypatch, plan)
    made_visits.decide(made, plan, dropped=("opening",))
    found = cutting_template(made_visits.decided(made), side=Side.FRONT, paper="a4")
    assert isinstance(found, NoTemplate)
    assert "dropped" in found.why
    assert "Known to suit" in found.instead


def test_an_opening_larger_than_the_paper_says_so(made: Assessment) -> None:
    """Letter is wider than A4: one opening fits one and not the other."""
    too_large = asked(plan_of(ellipse(180, 150)), made)
    assert isinstance(too_large, NoTemplate)
    assert "A4 paper cannot show it at true scale" in too_large.why
    assert "184 mm across" in too_large.why
    between = plan_of(ellipse(128, 120))
    assert isinstance(asked(between, made, paper="a4"), NoTemplate)
    assert isinstance(asked(between, made, paper="letter"), Template)


# --- the PDF --------------------------------------------------------------------------------
def test_title_language_and_tags(made: Assessment) -> None:
    pdf = printed(template_of(plan_of(OVAL), made))
    read = paper.reader(pdf)
    assert read.metadata is not None
    assert read.metadata.title == "Cutting template"
    assert "Thistledown" not in str(dict(read.metadata))
    assert read.trailer["/Root"]["/Lang"] == "en"  # type: ignore[index]
    assert {"H1", "H2", "P", "Figure"} <= set(paper.tags(pdf))
    assert paper.fonts(pdf) == {"Liberation-Sans", "Liberation-Sans-Bold"}


@pytest.mark.parametrize(
    ("given", "family"),
    [("Wilhelmina" * 10, "Thistledown" * 9), ("Анна", "Иванова"), ("Ελένη", "Ζωγράφου")],
)
def test_long_names_and_other_scripts_are_whole(given: str, family: str, tmp_path: object) -> None:
    made = made_visits.assessed(given_name=given, family_name=family)
    pdf = printed(template_of(plan_of(OVAL), made, signed=False))
    for text in paper.page_texts(pdf):
        assert f"{given}{family}" in text.replace(" ", "")
    for box in paper.boxes(pdf, tmp_path):  # type: ignore[arg-type]
        assert box.left >= 28
        assert box.top >= 14
        assert box.right <= box.page_width - 28


def test_an_arabic_name_is_set_in_letters_not_boxes() -> None:
    made = made_visits.assessed(given_name="ليلى", family_name="حداد")
    pdf = printed(template_of(plan_of(OVAL), made))
    assert "Noto-Sans-Arabic-Bold" in paper.fonts(pdf)
    assert "�" not in paper.whole_text(pdf)


# --- the page -------------------------------------------------------------------------------
def url(made: Assessment) -> str:
    return reverse("documents:cutting_template", args=[made.uuid])


def as_role(client: Client, role: Role) -> Client:
    client.force_login(UserFactory.create(role=role))
    return client


@pytest.fixture
def signed(made: Assessment, monkeypatch: pytest.MonkeyPatch) -> Assessment:
    plan = plan_of(OVAL)
    made_visits.use_plan(monkeypatch, plan)
    made_visits.decide(made, plan)
    made_visits.sign(made)
    return made


def test_printing_is_on_record_with_side_and_paper(client: Client, signed: Assessment) -> None:
    for times, role in enumerate(Role, start=1):
        response = as_role(client, role).get(url(signed), {"side": "back", "paper": "letter"})
        assert response.status_code == 200, role
        assert response["Content-Type"] == "application/pdf"
        assert "Thistledown" not in response["Content-Disposition"]
        rows = AccessLog.objects.filter(action="printed")
        assert len(rows) == times
        for row in rows:
            assert row.detail == "cutting template, back of the barrier, letter"
            assert row.subject_uuid == signed.uuid
            assert row.patient_uuid == signed.visit.patient.uuid


def test_paper_is_what_the_settings_say(
    client: Client, signed: Assessment, settings: Settings
) -> None:
    settings.PAPER_SIZE = "Letter"
    response = as_role(client, Role.NURSE).get(url(signed))
    assert float(paper.reader(response.content).pages[0].mediabox.width) == pytest.approx(612)


@pytest.mark.parametrize("asked_for", [{"side": "left"}, {"paper": "a3"}, {"side": "FRONT"}])
def test_a_side_or_paper_that_is_not_there_is_not_guessed(
    client: Client, signed: Assessment, asked_for: dict[str, str]
) -> None:
    assert as_role(client, Role.NURSE).get(url(signed), asked_for).status_code == 404
    assert not AccessLog.objects.filter(action="printed").exists()


def test_a_draft_is_for_who_charts(
    client: Client, made: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = plan_of(OVAL)
    made_visits.use_plan(monkeypatch, plan)
    page = as_role(client, Role.NURSE).get(url(made))
    assert page.status_code == 409
    assert "still open" in page.content.decode()
    made_visits.decide(made, plan)
    assert as_role(client, Role.NURSE).get(url(made)).status_code == 200
    assert as_role(client, Role.DESK).get(url(made)).status_code == 403


def test_why_there_is_none_is_clinical(
    client: Client, made: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The desk, which sees no findings, sees only that there is none."""
    plan = replace(made_plans.LEAK, dimensions=NO_SIZES)
    made_visits.use_plan(monkeypatch, plan)
    made_visits.decide(made, plan)
    made_visits.sign(made)
    nurse = as_role(client, Role.NURSE).get(url(made))
    desk = as_role(client, Role.DESK).get(url(made))
    assert nurse.status_code == desk.status_code == 409
    assert "not recorded at this visit" in nurse.content.decode()
    assert "not recorded at this visit" not in desk.content.decode()
    assert AccessLog.objects.filter(detail="no cutting template").count() == 2


def test_unknown_is_not_there(client: Client) -> None:
    address = reverse("documents:cutting_template", args=[uuid4()])
    assert as_role(client, Role.NURSE).get(address).status_code == 404


def test_without_a_printer_program_there_is_a_page(
    client: Client, signed: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_pages: object, *, at_most: int) -> bytes:
        raise PrintingUnavailable("Pango is not here.")

    monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", fail)
    response = as_role(client, Role.DESK).get(url(signed))
    assert response.status_code == 503
    assert "Pango is not here." in response.content.decode()
    assert not AccessLog.objects.filter(action="printed").exists()


def test_a_signed_template_is_the_snapshot(
    signed: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    def drawn() -> Template:
        found = cutting_template(made_visits.decided(signed), side=Side.FRONT, paper="a4")
        assert isinstance(found, Template)
        return found

    before = drawn()
    made_visits.use_plan(monkeypatch, plan_of(PROLAPSED))
    assert drawn().drawing == before.drawing
    assert signed.visit.happened_at.date() == date(2026, 3, 2)
