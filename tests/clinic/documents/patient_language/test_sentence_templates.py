"""The way back from what a plan said to the sentence in the catalogue."""

import itertools

import pytest

from clinic.documents.patient_language.english_marks import OPEN, bare, english_in, runs
from clinic.documents.patient_language.plan_sentences import (
    as_typed,
    danger_line,
    from_plan,
    translated,
)
from clinic.documents.patient_language.sentence_templates import TEMPLATES, matches, pattern
from clinic.documents.patient_language.translator import ENGLISH, translator_for
from planning.results.plan import Urgency
from planning.safety.call_when import DANGERS, Danger, _line
from planning.supplies.catalogue import CATALOGUE
from tests.clinic.documents import sayable
from tests.clinic.documents.catalogues import LANGUAGES

SPANISH, ARABIC = translator_for("es"), translator_for("ar")


def said() -> list[str]:
    """Everything the templates can say, over every supply and a year of days."""
    supplies = [supply.patient_name for supply in CATALOGUE]
    days = [f"day {number}" for number in range(1, 366)]
    parts = {"supply": supplies, "day": days}
    return [
        template.format(**{name: part})
        for template in TEMPLATES
        for name, told in parts.items()
        if f"{{{name}}}" in template
        for part in told
    ]


def test_every_sentence_leads_back_to_one_template_and_its_parts() -> None:
    everything = said()
    assert len(everything) > 400
    for words in everything:
        ((template, parts),) = matches(words)
        assert template.format(**parts) == words


def test_no_other_sentence_looks_like_one_of_them() -> None:
    """Neither a whole sentence of the catalogue nor a supply by itself."""
    for context, words in sayable.everything():
        if words not in TEMPLATES:
            assert not list(matches(words)), (context, words)


@pytest.mark.parametrize(
    "near",
    [
        *("Keep using: .", "Keep using: soft ring", "keep using: soft ring.", "Keep using:  ring."),
        *("Change on day three at the latest.", "Change on day 3."),
        *("Stop using: soft ring. Now.", "Please keep using: soft ring.", ""),
    ],
)
def test_what_only_resembles_a_template_is_not_taken_for_it(near: str) -> None:
    assert not list(matches(near))


def test_signs_of_patterns_in_a_sentence_are_letters() -> None:
    assert pattern("Is it (hot)? {day}.").fullmatch("Is it (hot)? day 3.")
    assert not pattern("Is it (hot)? {day}.").fullmatch("Is it hot day 3.")


@pytest.mark.parametrize(
    ("words", "spanish", "arabic"),
    [
        (
            "Change on day 2 at the latest. Change at once if it itches, burns or leaks.",
            "Cámbielo a los 2 días como muy tarde. Cámbielo enseguida si pica, arde o tiene fugas.",
            "التغيير بعد يومين على الأكثر. التغيير فورًا عند الحكة أو الحرقة أو التسرّب.",
        ),
        ("Stop using: belt.", "Deje de usar: cinturón.", "التوقف عن استخدام: حزام."),
        ("Soft ring.", "Anillo blando.", "حلقة لينة."),
        (
            "To look at your skin again. To see how your new supplies work for you.",
            "Para ver su piel otra vez. Para ver cómo le van sus productos nuevos.",
            "لفحص جلدك مرة أخرى. لمعرفة مدى مناسبة المستلزمات الجديدة لك.",
        ),
    ],
)
def test_sentences_of_the_plan(words: str, spanish: str, arabic: str) -> None:
    assert from_plan(words, ENGLISH) == words
    assert from_plan(words, SPANISH) == spanish
    assert from_plan(words, ARABIC) == arabic


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(
    "words",
    [
        "Wash your hands. Lay out what you need. Fly to the moon.",
        "Fly to the moon. Wash your hands. Lay out what you need.",
        "Keep using: magic carpet.",
        "Wash your hands. Lay out what you want.",
        "wash your hands.",
    ],
)
def test_half_a_translation_is_none(language: str, words: str) -> None:
    """A warning must not be in one language and its reason in another."""
    assert translated(words, translator_for(language)) is None
    told = from_plan(words, translator_for(language))
    assert english_in(told) == [f"{words[0].upper()}{words[1:]}"]
    assert runs(told) == [(english_in(told)[0], True)]


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


def lines() -> list[tuple[tuple[Danger, ...], str]]:
    """Dangers of one urgency and group, any of them left out, as the planner joins them."""
    groups: dict[tuple[Urgency, str], list[Danger]] = {}
    for danger in DANGERS:
        groups.setdefault((danger.urgency, danger.group), []).append(danger)
    return [
        (some, _line(list(some)).patient_text)
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
    for dangers, words in every:
        told = danger_line(words, translator)
        assert OPEN not in told
        parts = [translator.find(danger.words, "danger") or "?" for danger in dangers]
        parts += [translator.find(d.then, "after a danger") or "?" for d in dangers if d.then]
        at = 0
        for part in parts:
            at = told.lower().index(part.lower(), at) + len(part)
        assert told.endswith(".")


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(
    "words",
    [
        "Your stoma has a deep cut, or you fly to the moon.",
        "You fly to the moon, or your stoma has a deep cut.",
        "Your stoma has a deep cut. Fly to the moon.",
    ],
)
def test_a_line_with_an_unknown_danger_stays_whole_in_english(language: str, words: str) -> None:
    assert runs(danger_line(words, translator_for(language))) == [(words, True)]


def test_english_is_said_as_it_was() -> None:
    for _, words in lines():
        assert danger_line(words, ENGLISH) == words
    assert bare(from_plan("Keep the hole at 30 mm.", ENGLISH)).startswith("Keep the hole at 30")
