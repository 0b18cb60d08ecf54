"""The clinic's own questions: asked or typed in from paper, kept, shown, never judged by."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse

from clinic.audit.models import AccessLog
from clinic.patient_answers.models import PatientAnswers
from clinic.patient_answers.questions import NOT_USED, NOT_VALIDATED, QUESTIONS
from clinic.plans.course import course_of
from planning.course.channels import ANSWERED
from tests.clinic.documents import paper
from tests.clinic.plans.signed_visits import reread, signed
from tests.factories.accounts import UserFactory
from tests.factories.patient_answers import AnswersFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db
ALL = {"pain": "3", "itching": "", "worry": "0", "kept_from": "10", "sure": "7"}


def sent(client: Client, assessment: Any, by: Any = None, **changed: Any) -> Any:
    client.force_login(by or UserFactory())
    data = {"once": str(uuid4()), "how": "paper", **ALL, **changed}
    return client.post(reverse("patient_answers:ask", args=[assessment.uuid]), data)


def test_each_question_has_its_column_and_its_channel() -> None:
    keys = [one.key for one in QUESTIONS]
    assert keys == [channel.key for channel in ANSWERED]
    assert [one.label for one in QUESTIONS] == [channel.title for channel in ANSWERED]
    assert all(PatientAnswers._meta.get_field(key).null for key in keys)


def test_answered_once_though_sent_twice_and_empty_is_unknown(client: Client) -> None:
    one, key, nurse = AssessmentFactory(), str(uuid4()), UserFactory()
    for _ in range(2):
        assert sent(client, one, nurse, once=key).status_code == 302
    row = PatientAnswers.objects.get()
    assert [row.rating(q.key) for q in QUESTIONS] == [3, None, 0, 10, 7]
    assert AccessLog.objects.filter(action="recorded answers", subject_uuid=row.uuid).count() == 1
    # Others are refused until these are withdrawn; nothing typed is lost.
    again = sent(client, one, worry="5")
    assert again.status_code == 422
    assert "Withdraw them" in str(again.context["form"].non_field_errors())
    page = client.get(reverse("patient_answers:ask", args=[one.uuid])).content.decode()
    assert "not answered" in page
    assert "10 of 10" in page
    assert NOT_VALIDATED.replace("'", "&#x27;") in page
    assert NOT_USED in page
    withdraw = reverse("patient_answers:withdraw", args=[row.uuid])
    assert "Say why." in client.post(withdraw, {}).content.decode()
    assert client.post(withdraw, {"why": "mistake"}).status_code == 302
    assert client.post(withdraw, {"why": "mistake"}).status_code == 404
    assert sent(client, one, worry="5").status_code == 302
    assert PatientAnswers.objects.count() == 2


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("nan", "Write a number"),
        ("Infinity", "Write a number"),
        ("-1", "At least 0"),
        ("11", "At most 10"),
        ("4.5", "A whole number"),
        ("five", "Write a number"),
    ],
)
def test_what_is_no_rating_is_said_beside_its_question(
    client: Client, typed: str, words: str
) -> None:
    answer = sent(client, AssessmentFactory(), itching=typed)
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == ["itching"]
    assert words in str(answer.context["form"].errors["itching"])
    assert not PatientAnswers.objects.exists()


def test_nothing_answered_is_not_saved_and_how_is_asked(client: Client) -> None:
    one = AssessmentFactory()
    answer = sent(client, one, **dict.fromkeys(ALL, ""))
    assert "Nothing was answered" in str(answer.context["form"].errors["pain"])
    assert list(sent(client, one, how="").context["form"].errors) == ["how"]
    assert not PatientAnswers.objects.exists()


def test_pain_charted_at_the_visit_is_not_asked_twice(client: Client) -> None:
    one = signed(leaking=True, output__pain_0_10=4)
    client.force_login(UserFactory())
    page = client.get(reverse("patient_answers:ask", args=[one.uuid]))
    assert "pain" not in page.context["form"].fields
    assert "4 of 10. It is not asked twice." in page.content.decode()
    # Posted anyway, it is not taken.
    assert sent(client, one, pain="9").status_code == 302
    assert PatientAnswers.objects.get().pain is None
    drawn = {key: [p.value for p in ps] for key, ps in points(one).items() if ps}
    assert drawn == {"pain": [4], "worry": [0], "kept_from": [10], "sure": [7]}


def points(assessment: Any) -> dict[str, Any]:
    from planning.course.series import series

    drawn = series(course_of(assessment.stoma))
    return {channel.key: drawn.of(channel.key) for channel in ANSWERED}


def test_typed_after_the_signature_they_change_nothing_of_the_visit(client: Client) -> None:
    one = signed(leaking=True)
    plan, signed_at = one.plan.plan, one.visit.signed_at
    client.force_login(UserFactory())
    trend = reverse("trends:stoma", args=[one.stoma.uuid])
    assert "What the person says" not in client.get(trend).content.decode()
    assert sent(client, one).status_code == 302
    after = reread(one)
    assert (after.plan.plan, after.visit.signed_at) == (plan, signed_at)
    page = client.get(trend).content.decode()
    for words in ("What the person says", NOT_USED, "10 of 10 on 6 May 2025. Answered once."):
        assert words in page
    visit = client.get(reverse("charting:visit", args=[one.visit.uuid])).content.decode()
    assert "Filled in on paper" in visit
    assert NOT_USED in visit


@pytest.mark.parametrize(
    "wrong",
    [
        {"worry": 11},
        {"worry": -1},
        {"worry": None},
        {"how": ""},
        {"how": "guessed"},
        {"withdrawn_why": "mistake"},
    ],
)
def test_the_database_refuses_it_too(wrong: dict[str, Any]) -> None:
    with pytest.raises((DatabaseError, ValidationError)), transaction.atomic():
        AnswersFactory(**wrong)


def test_they_never_change_and_there_is_one_set_a_visit() -> None:
    row = AnswersFactory()
    with pytest.raises(DatabaseError), transaction.atomic():
        PatientAnswers.objects.filter(pk=row.pk).update(worry=1)
    with pytest.raises(DatabaseError), transaction.atomic():
        row.delete()
    with pytest.raises(DatabaseError), transaction.atomic():
        AnswersFactory(assessment=row.assessment)


@pytest.mark.parametrize("language", ["en", "es", "ar"])
def test_the_paper_is_one_page_in_each_language_and_size(client: Client, language: str) -> None:
    client.force_login(UserFactory())
    stoma = AssessmentFactory().stoma
    address = reverse("documents:questions", args=[stoma.uuid])
    for size in ("normal", "large"):
        for sheet in ("a4", "letter"):
            asked = {"language": language, "print": size, "paper": sheet}
            content = client.get(address, asked).content
            assert len(paper.reader(content).pages) == 1, asked
    if language == "en":
        text = paper.whole_text(content)
        assert NOT_VALIDATED in text
        assert all(one.asks in text for one in QUESTIONS)
