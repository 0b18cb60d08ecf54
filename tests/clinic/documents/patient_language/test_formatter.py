"""Messages said in each language: whole sentences with their parts, or English and marked."""

import itertools

import pytest

from clinic.documents.patient_language.english_marks import OPEN, english_in, runs
from clinic.documents.patient_language.formatter import IN_ENGLISH, formatter_of, say
from clinic.documents.patient_language.lay_terms import NBSP
from clinic.documents.patient_language.translator import ENGLISH, translator_for
from clinic.documents.patient_language.typed_words import as_typed
from planning.results.message import (
    AFTER,
    DANGER,
    SUPPLY,
    Day,
    Days,
    Length,
    Message,
    Text,
    Words,
    to_patient,
)
from planning.results.plan import Urgency
from planning.safety.call_when import DANGERS, Danger, lines_of
from planning.supplies.catalogue import CATALOGUE
from tests.clinic.documents.catalogues import LANGUAGES

SPANISH, ARABIC = translator_for("es"), translator_for("ar")
BY_DAY = "Change on {day} at the latest."


@pytest.mark.parametrize(
    ("words", "english", "spanish", "arabic"),
    [
        (
            [
                Message.of(BY_DAY, day=Day(2)),
                "Change at once if it itches, burns or leaks.",
            ],
            "Change on day 2 at the latest. Change at once if it itches, burns or leaks.",
            "Cámbielo a los 2 días como máximo. Cámbielo enseguida si pica, arde o tiene fugas.",
            "غيّرها بعد يومين على الأكثر. غيّرها فورًا عند الحكة أو الحرقة أو التسرّب.",
        ),
        (
            [Message.of("Stop using: {supply}.", supply=Message("belt", SUPPLY))],
            "Stop using: belt.",
            "Deje de usar: cinturón.",
            "توقف عن استخدام: حزام.",
        ),
        ([Message("soft ring", SUPPLY)], "Soft ring.", "Anillo blando.", "حلقة لينة."),
        (
            ["To look at your skin again.", "To see how your new supplies work for you."],
            "To look at your skin again. To see how your new supplies work for you.",
            "Para ver su piel otra vez. Para ver cómo le van sus productos nuevos.",
            "لفحص جلدك مرة أخرى. لمعرفة مدى مناسبة المستلزمات الجديدة لك.",
        ),
    ],
)
def test_sentences_of_the_plan(words: list[Words], english: str, spanish: str, arabic: str) -> None:
    told = to_patient(*words)
    assert say(told, ENGLISH) == told.english() == english
    assert say(told, SPANISH) == spanish
    assert say(told, ARABIC) == arabic


@pytest.mark.parametrize(
    ("days", "english", "spanish", "arabic"),
    [
        *((1, "1 day", "1 día", "يوم واحد"), (2, "2 days", "2 días", "يومين")),
        *((7, "7 days", "7 días", "7 أيام"), (14, "14 days", "14 días", "14 يومًا")),
        (100, "100 days", "100 días", "100 يوم"),
    ],
)
def test_a_number_of_days(days: int, english: str, spanish: str, arabic: str) -> None:
    for translator, told in ((ENGLISH, english), (SPANISH, spanish), (ARABIC, arabic)):
        assert formatter_of(translator).part(Days(days)) == told


def test_only_english_counts_the_days_by_name() -> None:
    assert IN_ENGLISH.part(Day(3)) == "day 3"
    assert formatter_of(SPANISH).part(Day(3)) == "3 días"
    assert formatter_of(ARABIC).part(Day(3)) == "3 أيام"


@pytest.mark.parametrize(
    ("length", "english", "spanish"),
    [
        (Length(25.4), "25.4 mm (about 1 inch)", "25.4 mm (unos 1 pulgada)"),
        (Length(34.0, 30.0), "34 mm by 30 mm (about 1 5/16 by 1 3/16 inches)", ""),
        (Length(0.5), "0.5 mm", "0.5 mm"),
    ],
)
def test_a_length_has_inches_beside_it(length: Length, english: str, spanish: str) -> None:
    assert (IN_ENGLISH.part(length) or "").replace(NBSP, " ") == english
    told = (formatter_of(SPANISH).part(length) or "").replace(NBSP, " ")
    assert told == spanish or ("pulgada" in told and "inch" not in told)
    assert OPEN not in (formatter_of(ARABIC).part(length) or OPEN)


def test_every_supply_has_its_name_inside_a_sentence() -> None:
    for supply in CATALOGUE:
        told = to_patient(
            Message.of("Keep using: {supply}.", supply=Message(supply.patient_name, SUPPLY))
        )
        assert say(told, ENGLISH) == f"Keep using: {supply.patient_name}."
        for translator in (SPANISH, ARABIC):
            name = translator.find(supply.patient_name, SUPPLY)
            assert name
            assert name in say(told, translator)


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(
    "words",
    [
        ["Wash your hands. Lay out what you need.", "Fly to the moon."],
        ["Fly to the moon.", "Wash your hands. Lay out what you need."],
        [Message.of("Keep using: {supply}.", supply=Message("magic carpet", SUPPLY))],
        ["Wash your hands. Lay out what you want."],
        ["wash your hands."],
    ],
)
def test_half_a_translation_is_none(language: str, words: list[Words]) -> None:
    """A warning must not be in one language and its reason in another."""
    told = to_patient(*words)
    said = say(told, translator_for(language))
    assert runs(said) == [(say(told, ENGLISH), True)]


@pytest.mark.parametrize("language", LANGUAGES)
def test_english_that_nobody_read_back_is_marked(language: str) -> None:
    told = Text(stored="wash your hands")
    assert english_in(say(told, translator_for(language))) == ["Wash your hands."]
    assert say(told, ENGLISH) == "Wash your hands."


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_is_typed_is_never_taken_for_a_sentence_of_the_catalogue(language: str) -> None:
    assert runs(as_typed("close the outlet", translator_for(language))) == [
        ("Close the outlet.", True)
    ]
    assert as_typed("close the outlet", ENGLISH) == "Close the outlet."


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_word_of_ours_without_a_translation_is_marked(language: str) -> None:
    """Should somebody add one and forget the catalogue: never printed as if it were translated."""
    translator = translator_for(language)
    assert runs(translator.translate("Fly to the {where}.", where="moon")) == [
        ("Fly to the moon.", True)
    ]
    assert runs(translator.count("{number} moon", "{number} moons", 2)) == [("2 moons", True)]
    assert ENGLISH.translate("Fly to the {where}.", where="moon") == "Fly to the moon."


def test_words_typed_in_the_patients_own_letters_are_not_marked_as_english() -> None:
    assert as_typed("اتصل بنا غدًا", ARABIC) == "اتصل بنا غدًا."
    assert OPEN in as_typed("اتصل بنا غدًا", SPANISH)


def lines() -> list[tuple[tuple[Danger, ...], Text]]:
    """Dangers of one urgency and group, any of them left out, as the planner joins them."""
    groups: dict[tuple[Urgency, str], list[Danger]] = {}
    for danger in DANGERS:
        groups.setdefault((danger.urgency, danger.group), []).append(danger)
    return [
        (some, lines_of(some)[0].patient_text)
        for among in groups.values()
        for count in range(1, len(among) + 1)
        for some in itertools.combinations(among, count)
    ]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_line_of_when_to_call_is_told_whole(language: str) -> None:
    """Each danger in its own words, in order, and after them what to do."""
    translator = translator_for(language)
    every = lines()
    assert len(every) > 40
    for dangers, line in every:
        told = say(line, translator)
        assert OPEN not in told
        parts = [translator.find(danger.words, DANGER) or "?" for danger in dangers]
        parts += [translator.find(d.then, AFTER) or "?" for d in dangers if d.then]
        at = 0
        for part in parts:
            at = told.lower().index(part.lower(), at) + len(part)
        assert told.endswith(".")


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_line_with_an_unknown_danger_stays_whole_in_english(language: str) -> None:
    known, unknown = (
        Danger(words, Urgency.DAYS, "a", words, ())
        for words in ("your stoma has a deep cut", "you fly to the moon")
    )
    for some in ((known, unknown), (unknown, known)):
        (line,) = lines_of(some)
        said = say(line.patient_text, translator_for(language))
        assert runs(said) == [(line.patient_text.english(), True)]


def test_english_is_said_as_the_planner_says_it() -> None:
    for _, line in lines():
        assert say(line, ENGLISH) == line.english()
