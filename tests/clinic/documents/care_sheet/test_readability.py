"""Plain words: every sheet reads at grade 6 or below, in short sentences."""

import re

import pytest

from clinic.documents.care_sheet.pages import html_of
from clinic.visits.models import Assessment
from planning import recommend
from tests.clinic.documents import made_findings, made_plans, made_visits, reading

TEXT_A = (
    "Empty your pouch when it is one third full. Wash the skin with warm water. Pat it dry. Cut "
    "the hole to fit your stoma. Press the barrier to your skin for one minute. Look at your "
    "stoma each day. It should be red and moist. Call the nurse if it turns dark. Call if the "
    "skin is sore or wet. Keep a list of the days you change the pouch."
)
#: What a patient must never read (hard rules R11 to R14 of the clinical files). The salt and
#: sugar drink a team hands out is no sugar on a prolapse.
NEVER = (
    r"push (it|the stoma) back",
    r"(?<!salt and )sugar",
    r"dilat",
    r"drink plenty",
    r"plenty of (plain )?water",
    r"(insert|put (a|your) \w+ in(to)? (it|the stoma))",
    r"laxative",
    r"(start|stop) (taking|your) ",
    r"\bdose\b",
)


def test_formula_agrees_with_textstat_on_text_a() -> None:
    """textstat 0.7.13, run once: 10 sentences, 71 words, 78 syllables, grade 0.142."""
    said = reading.words(TEXT_A)
    assert len(reading.sentences(TEXT_A)) == 10
    assert len(said) == 71
    assert sum(map(reading.syllables, said)) == 78
    assert reading.grade([TEXT_A]) == pytest.approx(0.142, abs=0.001)


def test_textstat_tells_hard_from_easy_too() -> None:
    hard = "Peristomal irritation necessitates immediate clinical evaluation by a professional."
    assert reading.grade_by_textstat([hard]) > 12
    assert reading.grade_by_textstat([TEXT_A]) == pytest.approx(reading.grade([TEXT_A]), abs=1)


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("ileostomy", 5),
        ("stoma", 2),
        ("barrier", 3),
        ("emergency", 4),
        ("changed", 1),
        ("needed", 2),
        ("little", 2),
        ("bumpy", 2),
        ("pouches", 2),
        ("times", 1),
        ("surgeon", 2),
        ("replaces", 3),
    ],
)
def test_syllables(word: str, count: int) -> None:
    assert reading.syllables(word) == count


def test_hard_text_is_found_hard() -> None:
    hard = "Peristomal irritation necessitates immediate clinical evaluation by a professional."
    assert reading.grade([hard]) > 12


@pytest.mark.django_db
@pytest.mark.parametrize("name", made_plans.ALL)
def test_made_plans_read_easily(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    """With everything on the face, so that all of our own words are in it."""
    plan = made_plans.ALL[name]
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.everything_found(made)
    made_visits.decide(made, plan)
    lines = reading.lines_of(html_of(made_visits.sheet_of(made)))
    assert len(lines) >= 5
    assert reading.grade(lines) <= 6
    assert reading.words_a_sentence(lines) <= 15


@pytest.mark.django_db
def test_what_the_planner_says_reads_easily(swept: Assessment) -> None:
    """Over a sweep: every danger, kind of skin, stoma and fit; textstat 0.7.3 says the same."""
    hard, long, forbidden, apart = {}, {}, {}, {}
    for name, findings in made_findings.cases():
        decided = made_visits.all_accepted(recommend(findings), swept)
        lines = reading.lines_of(html_of(made_visits.sheet_from(decided)))
        if (grade := reading.grade(lines)) > 6:
            hard[name] = grade
        other = reading.grade_by_textstat(lines)
        # An emergency's few sentences are no sample: one word more or less moves a grade by half.
        if other > 6 or (abs(grade - other) > 1 and len(lines) > 10):
            apart[name] = grade, other
        if (length := reading.words_a_sentence(lines)) > 15:
            long[name] = length
        text = " ".join(lines).lower()
        if found := [words for words in NEVER if re.search(words, text)]:
            forbidden[name] = found
    assert not hard
    assert not apart
    assert not long
    assert not forbidden


@pytest.mark.parametrize(
    "words",
    [
        "push it back in",
        "put sugar on it",
        "drink plenty of water",
        "dilate it with a finger",
        "put a finger into the stoma",
        "stop taking your tablets",
    ],
)
def test_what_a_patient_must_never_read_is_known(words: str) -> None:
    assert any(re.search(never, words) for never in NEVER)
