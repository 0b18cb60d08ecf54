"""The catalogues a translator reads: whole, and nothing in them that is not used."""

import re
from unicodedata import combining

import polib
import pytest

from clinic.documents.patient_language.catalogue import catalogue, po_path
from clinic.documents.patient_language.recorded_ids import recorded_ids
from clinic.patients.models import SheetLanguage
from tests.clinic.documents import reading, sayable
from tests.clinic.documents.catalogues import LANGUAGES, entries

PARTS = re.compile(r"\{\w+\}")
#: What a sentence ends with, and what it may end with in another script.
ENDS = {".": ".", "?": "?؟", ":": ":", "!": "!"}
#: Of these even one word is forbidden to be softened: nothing is pushed, eaten or put in.
FORBIDDING = re.compile(r"\b(do not|never|no)\b", re.IGNORECASE)
FORBIDS = {
    "es": re.compile(r"\b(no|nunca|ni|sin)\b", re.IGNORECASE),
    "ar": re.compile("يُمنع|لا |عدم|بلا |لم "),
}


def test_every_language_of_sheets_but_english_has_one() -> None:
    assert {SheetLanguage.ENGLISH, *LANGUAGES} == set(SheetLanguage)


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_sentence_a_sheet_can_say_is_in_it(language: str) -> None:
    said = sayable.everything()
    assert len(said) > 300
    assert not said - set(entries(language))


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_other_is_but_for_what_a_signed_plan_may_hold(language: str) -> None:
    assert not set(entries(language)) - sayable.everything() - recorded_ids()


@pytest.mark.parametrize("language", LANGUAGES)
def test_nobody_takes_it_for_reviewed(language: str) -> None:
    stored = polib.pofile(str(po_path(language)))
    assert "NEEDS REVIEW BY A QUALIFIED TRANSLATOR" in stored.header
    assert stored.metadata["X-Review"] == "needs review by a qualified translator"
    assert stored.metadata["Language"] == language
    assert not stored.fuzzy_entries()
    assert not stored.untranslated_entries()


def faults(language: str, context: str, entry: polib.POEntry) -> list[str]:
    """What is wrong with one entry."""
    found = [] if entry.comment else ["it is not said where it is used"]
    if entry.msgid_plural:
        return found
    if catalogue(language).find(entry.msgid, context) != entry.msgstr:
        found.append("not found by the papers")
    if sorted(PARTS.findall(entry.msgid)) != sorted(PARTS.findall(entry.msgstr)):
        found.append("other parts")
    end = ENDS.get(entry.msgid[-1])
    if not (entry.msgstr[-1] in end if end else entry.msgstr[-1] not in ".?!:"):
        found.append("another end")
    return found


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_entry(language: str) -> None:
    """Used somewhere, with the same parts and end; found by the papers."""
    wrong = {
        key: found
        for key, entry in entries(language).items()
        if (found := faults(language, key[0], entry))
    }
    assert wrong == {}


@pytest.mark.parametrize(
    ("changes", "fault"),
    [
        ({"comment": ""}, "it is not said where it is used"),
        ({"msgstr": "Otra cosa."}, "not found by the papers"),
        ({"msgid": "{n} and more."}, "other parts"),
        ({"msgstr": "Sin punto"}, "another end"),
    ],
)
def test_a_fault_of_an_entry_is_seen(changes: dict[str, str], fault: str) -> None:
    entry = next(e for e in entries("es").values() if e.msgid.endswith(".") and not e.msgctxt)
    made = polib.POEntry(
        **{"msgid": entry.msgid, "msgstr": entry.msgstr, "comment": entry.comment, **changes}
    )
    assert fault in faults("es", "", made)


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_is_forbidden_in_english_is_forbidden_in_it(language: str) -> None:
    """A coarse guard, for who edits without reading both."""
    asked = [one for one in entries(language).values() if FORBIDDING.search(one.msgid)]
    assert len(asked) > 20
    soft = [one.msgid for one in asked if not FORBIDS[language].search(one.msgstr)]
    assert not soft


@pytest.mark.parametrize("language", LANGUAGES)
def test_figures_stay(language: str) -> None:
    """But for Arabic, which says one and two of a thing without a figure."""
    for one in entries(language).values():
        said, told = (re.findall(r"\d+(?:\.\d+)?", words) for words in (one.msgid, one.msgstr))
        spoken = {"1", "2"} if language == "ar" else set()
        assert [n for n in said if n not in spoken] == told, one.msgid


@pytest.mark.parametrize(
    ("language", "number", "told"),
    [
        *(("es", 1, "1 día"), ("es", 3, "3 días")),
        *(("ar", 1, "يوم واحد"), ("ar", 2, "يومين"), ("ar", 7, "7 أيام"), ("ar", 14, "14 يومًا")),
        ("ar", 100, "100 يوم"),
    ],
)
def test_a_number_of_days(language: str, number: int, told: str) -> None:
    found = catalogue(language).counted("{number} day", "{number} days", number)
    assert found is not None
    assert found.format(number=number) == told


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_is_not_there_is_not_found(language: str) -> None:
    assert catalogue(language).find("Fly to the moon.") is None
    assert catalogue(language).find("head") is None  # another context
    assert catalogue(language).find("") is None  # gettext answers with the header
    assert catalogue(language).counted("{number} moon", "{number} moons", 2) is None


@pytest.mark.parametrize(("language", "most"), [("es", 14), ("ar", 11)])
def test_sentences_are_short(language: str, most: float) -> None:
    """Words a sentence, on average and each; Arabic joins to a word what English sets apart."""
    ended = [one.msgstr for one in entries(language).values() if one.msgid.endswith((".", "?"))]
    # Signs over Arabic letters are no letters, and would part a word in two.
    told = ["".join(sign for sign in line if not combining(sign)) for line in ended]
    parts = [part for line in told for part in re.split(r"[.?؟](?:\s|$)", line) if part.strip()]
    lengths = [len(re.findall(r"[^\W_]+", part)) for part in parts]
    assert sum(lengths) / len(lengths) <= most / 2
    assert max(lengths) <= 1.5 * most, max(parts, key=len)


def test_spanish_reads_easily() -> None:
    """Fernández Huerta 1959 (formula from memory): 70 and more is easy."""
    told = [one.msgstr for one in entries("es").values() if one.msgid.endswith((".", "?"))]
    assert reading.fernandez_huerta(told) >= 70


@pytest.mark.parametrize(
    ("word", "count"),
    [("estoma", 3), ("día", 2), ("líquido", 3), ("caer", 2), ("quince", 2), ("piel", 1)],
)
def test_spanish_syllables(word: str, count: int) -> None:
    assert reading.spanish_syllables(word) == count


def test_hard_spanish_is_found_hard() -> None:
    hard = "La irritación periestomal requiere inmediatamente una evaluación profesional."
    assert reading.fernandez_huerta([hard]) < 20
