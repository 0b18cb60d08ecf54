"""No id of a message ever dies: a plan signed years ago still finds its sentences."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from string import Formatter

import polib
import pytest

from clinic.documents.how_soon import without_later
from clinic.documents.patient_language import catalogue, replaced_ids
from clinic.documents.patient_language.english_marks import english_in
from clinic.documents.patient_language.recorded_ids import recorded_ids
from clinic.documents.patient_language.replaced_ids import REPLACED, Key, today
from clinic.documents.patient_language.translator import translator_for
from clinic.referrals.models import Urgency
from clinic.visits.models import Assessment
from planning import Plan, recommend
from planning.results.message import Message, Text
from planning.technique import in_order
from tests.clinic.documents import made_visits
from tests.clinic.documents.catalogues import LANGUAGES, entries, po_path
from tests.clinic.documents.sayable import planner
from tests.planning.builders import leaking
from tests.planning.safety.dangers import DANGERS
from tests.planning.sweep import states

CLEAN = "Wash the skin with warm water. Use no oil and no baby wipes."
COMMA = "Wash the skin with warm water. Use no oil, and no baby wipes."


def lost(language: str) -> set[Key]:
    """Ids on record that are neither in the catalogue nor replaced by one that is."""
    known = set(entries(language))
    return {key for key in recorded_ids() if key not in known and not known.issuperset(now(key))}


def now(key: Key) -> set[Key]:
    """What is said for it today; its parts are of no account."""
    context, id_ = key
    names = {name for _, name, _, _ in Formatter().parse(id_) if name}
    message = Message.of(id_, context, **dict.fromkeys(names, "part"))
    return {(one.context, one.id) for one in today(Text((message,)))}


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_id_on_record_can_still_be_said(language: str) -> None:
    assert len(recorded_ids()) > 250
    assert not lost(language), "Keep the entry, or say in replaced_ids.py what is said instead."


def test_everything_that_the_rules_say_is_on_record() -> None:
    missing = set(planner()) - recorded_ids()
    assert not missing, "python -m tests.clinic.documents.patient_language.record_ids"


def messages_of(plan: Plan) -> Iterator[Message]:
    told = [item.patient_text for item in plan.recommendations]
    told += [step.patient_text for step in plan.steps]
    told += [flag.patient_text for flag in plan.red_flags]
    told += [line.patient_text for line in plan.call_when]
    for text in (*told, plan.follow_up.patient_text):
        for message in text or ():
            yield message
            yield from (part for _, part in message.parts if isinstance(part, Message))
    for flag in plan.red_flags:
        for level in Urgency:
            yield from without_later(flag.patient_text or Text(), level)


def plans() -> Iterator[Plan]:
    yield from (recommend(found, history) for found, history in states(400))
    for danger in DANGERS:
        yield recommend(danger.on_a_well_stoma)
        yield recommend(danger.and_nothing_else_known)


def test_whatever_a_plan_says_is_on_record() -> None:
    said = {(one.context, one.id) for plan in plans() for one in messages_of(plan)}
    assert len(said) > 100
    assert not said - recorded_ids()


def test_every_row_replaces_something_on_record() -> None:
    whole = {key for key in recorded_ids() if "{" not in key[1]}
    sentences = {(context, one.id) for context, id_ in whole for one in Message(id_).sentences}
    assert set(REPLACED) <= whole | sentences


# --- a comma ----------------------------------------------------------------------------------
def with_comma(monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    """The sentence gets a comma, in its rule and in the catalogues; its old entry is gone."""
    rules = tuple(
        replace(rule, patient=COMMA) if rule.patient == CLEAN else rule for rule in in_order()
    )
    monkeypatch.setattr("planning.technique.in_order", lambda: rules)
    for language in LANGUAGES:
        path = folder / language / "LC_MESSAGES"
        path.mkdir(parents=True)
        stored = polib.pofile(str(po_path(language)))
        entry = stored.find(CLEAN)
        assert entry
        entry.msgid = COMMA
        stored.save(str(path / "sheet.po"))
    monkeypatch.setattr(catalogue, "FOLDER", folder)
    forget()


def forget() -> None:
    catalogue.catalogue.cache_clear()
    translator_for.cache_clear()


@pytest.fixture
def remembered() -> Iterator[None]:
    """The catalogues as they are, read again."""
    yield
    forget()


@pytest.mark.django_db
@pytest.mark.usefixtures("remembered")
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_changed_comma_turns_no_old_sheet_to_english(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, language: str
) -> None:
    made = made_visits.signed_as_planned("leaking")
    before = steps_of(made, language)
    assert not english_in(" ".join(before))
    with monkeypatch.context() as patched:
        with_comma(patched, tmp_path)
        assert COMMA in {str(step.patient_text) for step in recommend(leaking()).steps}
        # Without a row: what test_every_id_on_record_can_still_be_said finds at once.
        assert english_in(" ".join(steps_of(made, language))) == [CLEAN]
        patched.setattr(replaced_ids, "REPLACED", {("", CLEAN): ("", COMMA)})
        assert steps_of(made, language) == before


def test_a_lost_id_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """What that test relies on: an entry reworded in the catalogue, and no row for it."""
    known = {key: entry for key, entry in entries("es").items() if key != ("", CLEAN)}
    monkeypatch.setattr(f"{__name__}.entries", lambda _: known)
    assert lost("es") == {("", CLEAN)}
    rows = {**REPLACED, ("", CLEAN): ("", "Empty the pouch.")}
    monkeypatch.setattr(replaced_ids, "REPLACED", rows)
    assert lost("es") == set()


def steps_of(made: Assessment, language: str) -> list[str]:
    return [step.words for step in made_visits.sheet_of(made, language=language).steps]
