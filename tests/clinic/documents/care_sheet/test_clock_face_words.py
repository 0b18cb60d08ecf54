"""The patient's own clock face: each mark named in words, left and right as theirs."""

import pytest

from clinic.documents.care_sheet.clock_face_words import marks_of, picture, skin_words
from clinic.documents.care_sheet.sizes import stoma_size
from clinic.documents.patient_language.said import english
from clinic.visits.choices import SkinKind
from clinic.visits.models import Assessment, SkinAssessment, SkinFinding, StomaMeasurement
from tests.clinic.documents import made_plans, made_visits, paper

pytestmark = pytest.mark.django_db


@pytest.fixture
def made() -> Assessment:
    return made_visits.assessed()


def found(made: Assessment) -> Assessment:
    return made_visits.fresh(made)


def test_marks_in_words(made: Assessment) -> None:
    """The reading of the old barrier is the nurse's: it stays off the patient's face."""
    made_visits.sore_low_down(made)
    assert [(mark.number, mark.words) for mark in english(marks_of(found(made)))] == [
        ("1", "Raw skin (sore, wet): towards your feet"),
        ("C", "A fold or dip: on your left"),
    ]


def test_numbers_and_letters_are_those_of_the_drawing(made: Assessment) -> None:
    made_visits.everything_found(made)
    StomaMeasurement.objects.filter(assessment=made).update(
        junction="separated", separation_hours=[1, 2]
    )
    assessment = found(made)
    marks = marks_of(assessment)
    face = picture(assessment, marks)
    assert face is not None
    assert face.paper
    assert [mark.number for mark in marks] == [patch.number for patch in face.patches]
    assert len(marks) == 12 + 3


@pytest.mark.parametrize("kind", SkinKind.values)
def test_every_kind_is_named_without_a_trade_word(made: Assessment, kind: str) -> None:
    SkinFinding.objects.create(assessment=made, kind=kind, hours=[3])
    (mark,) = english(marks_of(found(made)))
    assert mark.words.endswith(": on your left")
    for trade in ("erosion", "erythema", "ulcer", "macerat", "granuloma", "fistula", "abscess"):
        assert trade not in mark.words.lower()


def test_nothing_found_is_not_the_same_as_not_looked(made: Assessment) -> None:
    assert (
        english(skin_words(found(made))) == "We did not write down how your skin looks this time."
    )
    row = SkinAssessment.objects.create(assessment=made, state="intact")
    assert english(skin_words(found(made))) == "The skin round your stoma looks well."
    SkinAssessment.objects.filter(pk=row.pk).update(state="findings")
    SkinFinding.objects.create(assessment=made, kind="erosion", hours=[3])
    assert skin_words(found(made)) == ""


def test_no_picture_of_nothing(made: Assessment) -> None:
    assert marks_of(found(made)) == ()
    assert picture(found(made), ()) is None


def test_size_of_the_stoma(made: Assessment) -> None:
    told = english(stoma_size(found(made))).replace("\N{NO-BREAK SPACE}", " ")
    assert told == "Your stoma is 30 mm by 26 mm (about 1 3/16 by 1 inches)."
    StomaMeasurement.objects.filter(assessment=made).update(width_mm=None)
    assert stoma_size(found(made)) == ""


def test_picture_on_paper_has_words_for_who_cannot_see_it(
    made: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    made_visits.use_plan(monkeypatch, made_plans.LEAK)
    made_visits.sore_low_down(made)
    made_visits.decide(made, made_plans.LEAK)
    pdf = made_visits.printed(made_visits.sheet_of(made))
    told = [str(one["/Alt"]) for one in paper.structure(pdf) if one["/S"] == "/Figure"]
    assert [alt for alt in told if "1: Raw skin (sore, wet): towards your feet; C:" in alt]
    text = paper.whole_text(pdf)
    for words in ("head", "feet", "your left", "your right", "face to face with you"):
        assert words in text
