"""The page: who may see it, what it says, and that long records cost no more queries."""

from __future__ import annotations

import html
import re
from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from clinic import formatting
from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.patients.models import Stoma
from clinic.plans.course import course_of, course_report
from clinic.plans.diagnosis_codes import hernia_confirmed
from clinic.plans.models import ChosenCode
from clinic.referrals.models import Referral
from clinic.trends.verdicts import OutcomeRow, outcome_rows
from tests.clinic.plans.signed_visits import referred
from tests.clinic.trends.seen_stomas import seen
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, PhotoFactory, VisitFactory, ended

pytestmark = pytest.mark.django_db


def signed_in(role: Role = Role.SURGEON) -> Client:
    client = Client()
    client.force_login(UserFactory.create(role=role))
    return client


def page(stoma: Stoma, client: Client | None = None, asked: dict[str, str] | None = None) -> str:
    answer = (client or signed_in()).get(reverse("trends:stoma", args=[stoma.uuid]), asked)
    assert answer.status_code == 200
    return answer.content.decode()


def words(markup: str) -> str:
    """What is read of a piece of the page."""
    return " ".join(re.sub(r"<[^>]+>", " ", markup).split())


@pytest.mark.parametrize(
    ("role", "status"), [(Role.NURSE, 200), (Role.SURGEON, 200), (Role.LEAD, 200), (Role.DESK, 403)]
)
def test_only_who_may_see_the_record(role: Role, status: int) -> None:
    stoma = StomaFactory.create()
    seen(stoma, 1)
    address = reverse("trends:stoma", args=[stoma.uuid])
    assert signed_in(role).get(address).status_code == status


def test_looking_is_on_the_access_log() -> None:
    stoma = StomaFactory.create()
    page(stoma)
    row = AccessLog.objects.get(action="viewed trend")
    assert (row.subject_uuid, row.patient_uuid) == (stoma.uuid, stoma.patient.uuid)


def test_without_a_signed_visit_there_is_nothing_yet() -> None:
    stoma = StomaFactory.create()
    AssessmentFactory.create(stoma=stoma, leaking=True)
    shown = page(stoma)
    assert "Nothing to show yet" in shown
    assert "<svg class" not in shown


def test_headline_figure_outcomes_and_tables() -> None:
    stoma = StomaFactory.create()
    visits = seen(stoma, 4)
    shown = page(stoma)
    assert shown.count(f"6 May {HAPPENED_AT.year}: protrusion 24 mm") == 1  # one drawing
    assert shown.count('class="outcome-what"') == len(visits)
    assert "Every value as a table" in shown
    assert "<td>24 mm</td>" in shown


def test_nothing_that_the_content_policy_forbids() -> None:
    stoma = StomaFactory.create()
    seen(stoma, 2)
    main = page(stoma).partition("<main")[2].partition("</main>")[0]
    assert not re.search(r"\sstyle=|<style|\son[a-z]+=|<script", main)


@pytest.mark.parametrize(("role", "word"), [(Role.SURGEON, "Answer"), (Role.NURSE, "Open")])
def test_a_referral_that_waits_is_asked_for(role: Role, word: str) -> None:
    waiting = referred()
    shown = page(waiting.assessment.stoma, signed_in(role))
    assert reverse("referrals:referral", args=[waiting.uuid]) in shown
    assert re.search(rf'class="button[^>]*>{word}<', shown)


def test_an_answered_referral_waits_no_longer() -> None:
    answered = referred()
    waiting = Referral.objects.filter(assessment=answered.assessment)
    waiting.update(
        answer="Seen.", answered_at=answered.made_at + timedelta(days=1),
        answered_by=answered.made_by,
    )  # fmt: skip
    shown = page(answered.assessment.stoma)
    line = words(shown.partition('id="asked-line"')[2].partition("</p>")[0])
    day = formatting.day(answered.made_at + timedelta(days=1))
    assert f"1 answer received. The latest, {day}: Seen." in line
    assert "No referral waits for an answer." in line


def test_words_of_the_record_stay_words() -> None:
    waiting = referred()
    waiting.question = "<script>alert(1)</script>"
    waiting.save(update_fields=["question"])
    assert "<script>alert" not in page(waiting.assessment.stoma)


def pictured(stoma: Stoma, *days: int) -> list[str]:
    """A photo so many days after the first visit, each; their addresses."""
    made = []
    for n in days:
        at = HAPPENED_AT + timedelta(days=n)
        visit = VisitFactory.create(patient=stoma.patient, happened_at=at)
        made.append(PhotoFactory(assessment=AssessmentFactory(stoma=stoma, visit=visit)))
        ended(made[-1].assessment)
    return [reverse("visits:photo", args=[photo.pk]) for photo in made]


def pictures(shown: str, where: str) -> list[str]:
    part = shown.partition(f'<div class="{where}"')[2].partition("</div>")[0]
    return re.findall(r'<img src="([^"]+)"', part)


def test_pictures_to_compare_oldest_and_newest_unless_others_are_asked_for() -> None:
    stoma = StomaFactory.create()
    first, second, third = pictured(stoma, 0, 1, 2)
    PhotoFactory.create()  # somebody else's
    seen(stoma, 1)

    def compared(**asked: str) -> list[str]:
        return pictures(page(stoma, asked=asked), "compare")

    def key(address: str) -> str:
        return address.rstrip("/").rpartition("/")[2]

    assert compared() == [first, third]
    assert compared(first=key(second), second=key(first)) == [second, first]
    assert compared(first="nonsense", second="") == [first, third]


def test_the_pictures_at_once_are_those_before_and_after_the_last_change() -> None:
    stoma = StomaFactory.create()
    seen(stoma, 4)
    changed = next(row.day for row in outcome_rows_of(stoma) if row.changed)
    last = (changed - timezone.localdate(HAPPENED_AT)).days
    _, before, _, after = pictured(stoma, last - 2, last, last + 1, last + 5)
    assert pictures(page(stoma), "bracket") == [before, after]


def test_without_a_picture_since_the_change_the_page_says_so() -> None:
    stoma = StomaFactory.create()
    seen(stoma, 4)
    (only,) = pictured(stoma, 0)
    shown = page(stoma)
    assert pictures(shown, "bracket") == [only]
    assert "No photo since the last change." in shown


def outcome_rows_of(stoma: Stoma) -> tuple[OutcomeRow, ...]:
    course = course_of(stoma)
    return outcome_rows(course_report(course).outcomes, course.events)


# --- the three lines, danger, the part of the course --------------------------------------------
def test_three_lines_each_with_its_link() -> None:
    stoma = StomaFactory.create()
    seen(stoma, 4)
    shown = page(stoma)
    short = shown.partition('class="panel minute"')[2].partition("</section>")[0]
    assert re.findall(r"<h2>([^<]+)</h2>", short) == [
        "What changed",
        "Did the last change help",
        "What is asked of me",
    ]
    for target in re.findall(r'href="#([^"]+)"', short):
        assert f'id="{target}"' in shown


def test_a_question_for_today_without_an_answer_is_a_danger_above_everything() -> None:
    waiting = referred()
    Referral.objects.filter(pk=waiting.pk).update(urgency="same_day")
    shown = page(waiting.assessment.stoma)
    assert 0 < shown.index('class="trend-danger"') < shown.index('class="panel minute"')
    Referral.objects.filter(pk=waiting.pk).update(
        answer="Seen.", answered_at=waiting.made_at, answered_by=waiting.made_by
    )
    assert 'class="trend-danger"' not in page(waiting.assessment.stoma)


def test_the_whole_course_is_one_press_away_and_says_which_part_is_shown() -> None:
    stoma = StomaFactory.create()
    visits = seen(stoma, 8)
    shown = page(stoma)
    assert "Course: the last six visits" in shown
    assert 'href="?course=whole#figure"' in shown
    days = [str(timezone.localdate(one.visit.happened_at)) for one in visits]
    assert drawn_days(shown) == days[2:]
    whole = page(stoma, asked={"course": "whole"})
    assert "Course: the whole course" in whole
    assert drawn_days(whole) == days
    # Every value is in the table whatever is drawn.
    for one in visits:
        assert f">{formatting.day(one.visit.happened_at)}</th>" in shown


def drawn_days(shown: str) -> list[str]:
    return re.findall(r'data-track="protrusion" data-number="\d+" data-day="([^"]+)"', shown)


def test_a_short_course_is_shown_whole_without_a_choice() -> None:
    stoma = StomaFactory.create()
    seen(stoma, 4)
    shown = page(stoma)
    assert "Course: the whole course" in shown
    assert "?course=" not in shown


def test_a_bulge_is_called_a_hernia_only_once_its_code_was_chosen() -> None:
    (visit,) = seen(StomaFactory.create(), 1)
    assert not hernia_confirmed(visit.stoma_id)
    for code, found in (("L24.B3", False), ("K43.5", True)):
        ChosenCode.objects.create(
            assessment=visit,
            code=code,
            title="chosen",
            release="test",
            chosen_by=visit.visit.clinician,
            chosen_at=visit.visit.happened_at,
        )
        assert hernia_confirmed(visit.stoma_id) is found


def test_nothing_that_needs_a_press_is_lost() -> None:
    """Folded, not removed: sentences, statistics, verdicts."""
    stoma = StomaFactory.create()
    seen(stoma, 4)
    said = html.unescape(words(page(stoma)))
    report = course_report(course_of(stoma))
    for text in (
        *report.headline,
        *(one.text for one in report.outcomes),
        *(one.text for one in report.figures),
    ):
        assert text in said


def queries(client: Client, stoma: Stoma) -> int:
    with CaptureQueriesContext(connection) as asked:
        page(stoma, client)
    return len(asked)


def test_queries_do_not_grow_with_the_record() -> None:
    client = signed_in()
    short, long = StomaFactory.create(), StomaFactory.create()
    seen(short, 1)
    for assessment in seen(long, 6):
        ended(PhotoFactory(assessment=_another_draft(assessment.stoma)).assessment)
    queries(client, short)  # what is only asked for once
    assert queries(client, long) == queries(client, short)


def _another_draft(stoma: Stoma) -> object:
    return AssessmentFactory.create(
        stoma=stoma, visit=VisitFactory.create(patient=stoma.patient, happened_at=HAPPENED_AT)
    )


def test_the_record_links_to_the_trend() -> None:
    stoma = StomaFactory.create()
    record = reverse("patients:record", args=[stoma.patient.uuid])
    link = reverse("trends:stoma", args=[stoma.uuid])

    def read_by(role: Role) -> str:
        return signed_in(role).get(record).content.decode()

    assert link in read_by(Role.SURGEON)
    assert link not in read_by(Role.DESK)
