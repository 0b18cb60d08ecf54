"""The letter to a colleague: one page whatever was written, nothing lost without a word."""

from dataclasses import replace
from datetime import timedelta
from functools import lru_cache
from itertools import pairwise
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import Settings

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.letter.build import Letter, referral_letter, visit_letter
from clinic.documents.letter.fit_to_page import ROOMS, RUN_ON, clipped, fitted, versions
from clinic.documents.letter.treatment_history import NO_TREND, Tried
from clinic.documents.letter.views import html_of, pdf_of_letter
from clinic.documents.printed.responses import own_size
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.documents.shared import Who
from clinic.plans.plan_with_decisions import decided_plan
from clinic.referrals.models import Referral, Urgency
from tests.clinic.documents import made_visits, paper
from tests.clinic.plans.signed_visits import accept, referred, reread, sign, signed
from tests.factories.accounts import UserFactory
from tests.factories.patients import ContactsFactory
from tests.factories.visits import AssessmentFactory, VisitFactory

SHORT = Letter(
    who=Who("Imogen Thistledown", "5 April 1961", "T000001"),
    stoma="End ileostomy, right lower, made 14 Mar 2024",
    visit_day="2 March 2026",
    signed=True,
    to="Colorectal surgeon",
    sender="Ada Quillfeather, nurse",
    sent="2 Mar 2026, 10:30",
    urgency="Same day",
    question=("Is this a separation? What do you advise?",),
    findings=("Stoma: length 30 mm; width 26 mm; protrusion 8 mm",),
    trend="",
    trend_words=(NO_TREND,),
    tried=(),
    tried_note="No plan has been signed for this stoma yet.",
    flags=("Stoma turning dark: surgeon",),
    plan=("Keep the ring", "Next visit 9 Mar 2026"),
    clinic="Fern Lane Stoma Clinic (invented)",
    phone="555-0100",
    language="Language spoken: Somali; interpreter needed",
)
FIGURE = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 336 560"><title>Trend</title>'
    '<path d="M0 0h336v560H0z" fill="none" stroke="#000"/></svg>'
)
WORDY = "Leaks at six o'clock twice a week since the hernia belt was changed, with raw skin. "
LONG = replace(
    SHORT,
    who=Who("Maximiliana-Theodora " * 4, "29 February 1960", "T999999"),
    signed=False,
    question=("What do you advise?", *(f"- {WORDY * 2}{n}" for n in range(9))),
    findings=tuple(f"Skin: finding {n} {WORDY * 3}" for n in range(12)),
    trend=FIGURE,
    trend_words=tuple(f"Course {n}. {WORDY * 2}" for n in range(6)),
    tried=tuple(Tried(f"day {n}", WORDY, "Worse", WORDY * 3) for n in range(9)),
    plan=tuple(f"Plan {n} {WORDY}" for n in range(14)),
)
#: The most a form takes, with more flags than are ever raised at once, each answered at length.
ENDLESS = replace(
    LONG,
    question=("What do you advise?", *(f"- {n}. {WORDY * 4}"[:330] for n in range(12))),
    flags=tuple(f"Flag {n}: {WORDY * 2}(instead of: Varices round the stoma)" for n in range(16)),
)
MODERATE = replace(
    SHORT, trend=FIGURE, findings=tuple(f"Skin: finding {n}, red" for n in range(12))
)


@lru_cache(maxsize=8)
def made_once(letter: Letter, size: str) -> bytes:
    """The same letter is the same paper; ``size`` is what the settings say."""
    assert size == own_size()
    return pdf_of_letter(letter)


def paper_of(letter: Letter) -> bytes:
    return made_once(letter, own_size())


def text_of(letter: Letter) -> str:
    return paper.whole_text(paper_of(letter))


@pytest.mark.parametrize(
    ("letter", "size"),
    # The longest on either paper.
    [(SHORT, "Letter"), (MODERATE, "A4"), (LONG, "A4"), (LONG, "Letter")],
    ids=["short", "moderate", "long", "long on Letter"],
)
def test_one_page_with_both_identifiers(settings: Settings, size: str, letter: Letter) -> None:
    settings.PAPER_SIZE = size
    pdf = paper_of(letter)
    assert len(paper.reader(pdf).pages) == 1
    width = float(paper.reader(pdf).pages[0].mediabox.width)
    assert width == pytest.approx({"A4": 595, "Letter": 612}[size], abs=0.5)
    text = paper.whole_text(pdf)
    for said in (letter.who.name.strip(), letter.who.born, letter.who.record_number, letter.to):
        # A long name may break behind a hyphen, which reads as a space.
        assert "".join(said.split()) in "".join(text.split())
    assert "Supports, never replaces" in text
    assert min(run.points for run in paper.runs(paper.reader(pdf).pages[0])) >= 8.99


def test_what_fits_is_whole_and_says_nothing_of_the_record() -> None:
    text = text_of(MODERATE)
    for line in (*MODERATE.question, *MODERATE.findings, *MODERATE.flags, *MODERATE.plan):
        assert line in text
    assert "Continued in the record" not in text


def test_what_does_not_fit_is_named() -> None:
    text = text_of(LONG)
    assert "Continued in the record:" in text
    for said in ("the figure of the trend", "findings", "earlier plan"):
        assert said in text
    assert "Not signed yet" in text


@pytest.mark.parametrize("letter", [LONG, ENDLESS], ids=["long", "endless"])
@pytest.mark.parametrize("room", ROOMS)
def test_no_question_and_no_red_flag_is_ever_cut(letter: Letter, room: Any) -> None:
    kept = fitted(letter, room).letter
    assert kept.flags == letter.flags
    assert RUN_ON.join(kept.question) == RUN_ON.join(letter.question)


def test_more_red_flags_shrink_the_rest_and_it_is_said() -> None:
    many = replace(MODERATE, flags=tuple(f"Flag {n}: {WORDY * 2}" for n in range(16)))
    text = text_of(many)
    for line in (*many.flags, *many.question):
        assert " ".join(line.split()) in text
    assert "Continued in the record:" in text
    assert len(paper.reader(paper_of(many)).pages) == 1


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_what_may_not_be_cut_takes_a_page_more_that_says_whose_it_is(
    settings: Settings, size: str
) -> None:
    settings.PAPER_SIZE = size
    pages = paper.page_texts(pdf_of_letter(ENDLESS))
    assert len(pages) == 2
    for page in pages:
        for said in (ENDLESS.who.name.strip(), "29 February 1960", "T999999"):
            assert "".join(said.split()) in "".join(page.split())
    assert "page 2 of 2" in pages[1]
    assert "page 1 of" not in pages[0]
    whole = "".join("".join(pages).split())
    for line in (*ENDLESS.question, *ENDLESS.flags):
        # One line may be on both pages, with what is said of the patient in between.
        assert all("".join(word.split()) in whole for word in line.split(". "))


def test_each_version_holds_no_more_than_the_one_before() -> None:
    """What ``fitting`` relies on when it halves."""
    assert len(list(versions(LONG))) == len(ROOMS)

    def amount(letter: Letter) -> tuple[int, ...]:
        parts: tuple[Any, ...] = (letter.findings, letter.plan, letter.tried)
        return (*(len(str(part)) for part in parts), len(letter.trend))

    amounts = [amount(version.letter) for version in versions(LONG)]
    for fuller, scanter in pairwise(amounts):
        assert all(after <= before for before, after in zip(fuller, scanter, strict=True))


@pytest.mark.parametrize("room", ROOMS[1:])
def test_nothing_is_left_out_in_silence(room: Any) -> None:
    version = fitted(LONG, room)
    kept, whole = version.letter, LONG
    for part, word in (("findings", "finding"), ("tried", "earlier plan"), ("plan", "of the plan")):
        if getattr(kept, part) != getattr(whole, part):
            assert any(word in said for said in version.left_out), part


@pytest.mark.parametrize("room", ROOMS)
def test_what_was_tried_is_in_full_or_counted(room: Any) -> None:
    version = fitted(LONG, room)
    shown = len(version.letter.tried)
    page = html_of(version)
    if shown == len(LONG.tried):
        assert "earlier plan" not in page
    else:
        assert f"{len(LONG.tried) - shown} earlier plan" in page.partition("Plan</h2>")[0]


def test_clipped_between_words_and_seen_to_be() -> None:
    assert clipped("One two three", 9) == "One two\N{HORIZONTAL ELLIPSIS}"


def test_tagged_with_title_and_language_and_fonts() -> None:
    pdf = paper_of(MODERATE)
    read = paper.reader(pdf)
    root: Any = read.trailer["/Root"]
    assert read.metadata is not None
    assert read.metadata.title == "Referral letter"
    assert root["/Lang"] == "en"
    assert {"H1", "H2", "L", "LI", "P"} <= set(paper.tags(pdf))
    assert paper.fonts(pdf) == {"Liberation-Sans", "Liberation-Sans-Bold"}
    assert "Thistledown" not in str(dict(read.metadata))


def test_what_was_written_is_never_markup() -> None:
    assert "&lt;b&gt;" in html_of(fitted(replace(SHORT, question=("<b>?",)), ROOMS[0]))


@pytest.mark.django_db
class TestMade:
    """From the record."""

    def test_one_time_to_look(self) -> None:
        """Sooner than the plan says: everywhere as soon. A danger never waits for a question."""
        asked = referred()
        decided = decided_plan(asked.assessment)
        assert decided is not None
        own = min(Urgency(flag.urgency.value) for flag in decided.plan.red_flags)
        for urgency, said in ((Urgency.EMERGENCY, Urgency.EMERGENCY), (Urgency.ROUTINE, own)):
            asked.urgency = urgency
            letter = referral_letter(asked, decided)
            assert letter.urgency == urgency.label
            assert f"({said.label.lower()})" in letter.answers[0]

    def test_of_a_referral(self) -> None:
        asked = referred()
        asked.assessment = reread(asked.assessment)
        made = referral_letter(asked, decided_plan(asked.assessment))
        assert made.question[0] == asked.asks
        assert any("length 30 mm" in line for line in made.findings)
        # Said once, under the findings.
        assert not any("length 30 mm" in line for line in made.question)
        assert not any("found on" in line for line in made.question)
        assert made.signed
        assert any(line.startswith("Next visit") for line in made.plan)

    def test_the_nurses_own_findings_in_a_question_stay(self) -> None:
        asked = referred()
        asked.question += "\n- Seen twice by the night nurse"
        asked.assessment = reread(asked.assessment)
        made = referral_letter(asked, decided_plan(asked.assessment))
        assert "- Seen twice by the night nurse" in made.question

    def test_first_visit_of_all_has_no_trend_and_says_so(self) -> None:
        draft = reread(AssessmentFactory(leaking=True))
        made = visit_letter(draft, decided_plan(draft), to="The surgeon")
        assert (made.trend, made.trend_words) == ("", (NO_TREND,))
        assert not made.signed
        assert "(not decided yet)" in made.plan[0]
        assert made.plan[-1].startswith("Kept: Flat, flexible barrier; ")

    def test_two_visits_have_a_trend_and_a_plan_to_judge(self) -> None:
        first = signed(leaking=True)
        later = VisitFactory(
            patient=first.stoma.patient,
            happened_at=first.visit.happened_at + timedelta(days=14),
        )
        second = AssessmentFactory(stoma=first.stoma, visit=later, well_fitting=True)
        accept(second)
        sign(second)
        about = reread(second)
        made = visit_letter(about, decided_plan(about), to="The surgeon")
        assert made.trend.startswith("<svg")
        assert len(made.tried) == 2
        pdf = pdf_of_letter(made)
        assert len(paper.reader(pdf).pages) == 1
        assert "Protrusion" in paper.whole_text(pdf)


def opened(client: Client, role: Role, name: str, uuid: object, **asked: str) -> Any:
    client.force_login(UserFactory.create(role=role))
    return client.get(reverse(name, args=[uuid]), asked)


@pytest.mark.django_db
def test_every_clinician_prints_it_and_that_is_on_record(client: Client) -> None:
    asked = referred()
    for times, role in enumerate((Role.NURSE, Role.SURGEON, Role.LEAD), start=1):
        answer = opened(client, role, "documents:letter", asked.uuid)
        assert answer.status_code == 200, role
        assert answer["Content-Type"] == "application/pdf"
        assert "What do you advise?" in paper.whole_text(answer.content)
        rows = AccessLog.objects.filter(action="printed")
        assert [(row.detail, row.patient_uuid) for row in rows] == [
            ("letter, about a referral", asked.assessment.visit.patient.uuid)
        ] * times


@pytest.mark.django_db
def test_it_is_not_for_the_front_desk(client: Client) -> None:
    asked = referred()
    assert opened(client, Role.DESK, "documents:letter", asked.uuid).status_code == 403
    about = asked.assessment.uuid
    assert opened(client, Role.DESK, "documents:visit_letter", about).status_code == 403


@pytest.mark.django_db
def test_about_a_visit_to_surgeon_or_family_doctor(client: Client) -> None:
    made = signed()
    for to, said in (("", "The surgeon"), ("doctor", "The family doctor"), ("x", "The surgeon")):
        asked = {"to": to} if to else {}
        answer = opened(client, Role.NURSE, "documents:visit_letter", made.uuid, **asked)
        text = paper.whole_text(answer.content)
        assert f"To {said}" in text
        assert "no question is asked" in text


@pytest.mark.django_db
def test_it_says_what_is_spoken_and_names_the_family_doctor(client: Client) -> None:
    made = signed()
    ContactsFactory(
        patient=made.visit.patient,
        language_spoken="Somali",
        interpreter_needed=True,
        doctor_name="Dr Reed",
        doctor_practice="Mill Lane",
        carer_name="Ivy Bracket",
    )
    answer = opened(client, Role.NURSE, "documents:visit_letter", made.uuid, to="doctor")
    text = paper.whole_text(answer.content)
    assert "Language spoken: Somali; interpreter needed." in text
    assert "To The family doctor, Dr Reed, Mill Lane" in text
    assert "Ivy Bracket" not in text
    assert AccessLog.objects.get(action="printed").detail == "letter, to the family doctor"


@pytest.mark.django_db
def test_a_drafts_letter_says_so(client: Client) -> None:
    draft = AssessmentFactory(leaking=True)
    Referral.objects.create(
        assessment=draft,
        to="Surgeon",
        urgency="days",
        question="Healing?",
        made_at=timezone.now(),
        made_by=UserFactory(),
    )
    asked = Referral.objects.get()
    text = paper.whole_text(opened(client, Role.SURGEON, "documents:letter", asked.uuid).content)
    assert "Not signed yet" in text


@pytest.mark.django_db
def test_contradicting_findings_still_make_a_letter(client: Client) -> None:
    made = made_visits.assessed()
    type(made.measurement).objects.filter(pk=made.measurement.pk).update(
        protrusion_mm=-5, prolapse="present", prolapse_extra_mm=20
    )
    answer = opened(client, Role.NURSE, "documents:visit_letter", made.uuid)
    assert "findings of this visit contradict each other" in paper.whole_text(answer.content)


@pytest.mark.django_db
def test_without_a_printer_program_there_is_a_page(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_pages: object, *, at_most: int) -> bytes:
        raise PrintingUnavailable("Pango is not here.")

    monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", fail)
    answer = opened(client, Role.NURSE, "documents:letter", referred().uuid)
    assert answer.status_code == 503
    assert "Pango is not here." in answer.content.decode()
    assert not AccessLog.objects.filter(action="printed").exists()
