"""Every rule that compares with a figure for adults, or names one, is marked as such."""

from __future__ import annotations

import pytest

from planning.children.dangers import IN_WORDS
from planning.evidence.thresholds import OUTPUT_CALL
from planning.results.message import to_patient
from planning.safety.call_when import DANGERS, Danger
from planning.safety.flag import FlagRule
from planning.safety.flags_children import INSTEAD, without_figures
from planning.safety.red_flags import NOT_FOR_ADULTS, RULES
from tests.planning.children.figures import figures_named, figures_read


def patient_words(rule: FlagRule) -> str:
    """With any part in them, as they read."""
    return str(to_patient(rule.patient_text) or "")


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.key)
def test_a_red_flag_that_reads_or_names_a_figure_is_marked(rule: FlagRule) -> None:
    """Unmarked, it would be judged and shown for a child as it is."""
    if not rule.adult_figures:
        assert figures_read(rule.judge) == set()
        for words in (rule.text, rule.refer_to, rule.do, patient_words(rule)):
            assert figures_named(words) == []


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.key)
def test_a_marked_red_flag_deserves_its_mark(rule: FlagRule) -> None:
    """A mark on a rule without a figure would only make it say less."""
    if rule.adult_figures:
        named = figures_named(f"{rule.text} {rule.do} {patient_words(rule)}")
        by_class = rule.key in ("separation", "separation_shallow")  # the class holds its figures
        assert figures_read(rule.judge) or named or by_class or rule.key == "spurting"


@pytest.mark.parametrize("rule", NOT_FOR_ADULTS, ids=lambda rule: rule.key)
def test_what_stands_for_it_names_no_figure(rule: FlagRule) -> None:
    assert not rule.adult_figures
    for words in (rule.text, rule.refer_to, rule.do, patient_words(rule)):
        assert figures_named(words) == []


def test_every_row_stands_for_a_marked_rule() -> None:
    marked = {rule.key for rule in RULES if rule.adult_figures}
    assert set(INSTEAD) <= marked


def test_a_marked_rule_without_a_row_keeps_its_verdict_in_plain_words() -> None:
    marked = {rule.key: rule for rule in RULES if rule.adult_figures}
    assert marked.keys() - INSTEAD.keys() >= {"lasting_lump"}
    assert without_figures(marked["lasting_lump"]).text == marked["lasting_lump"].text


@pytest.mark.parametrize("danger", DANGERS, ids=lambda danger: danger.key)
def test_a_line_of_the_sheet_that_names_a_figure_is_marked(danger: Danger) -> None:
    assert danger.adult_figures is bool(figures_named(f"{danger.words} {danger.then}"))


@pytest.mark.parametrize("danger", IN_WORDS, ids=lambda danger: danger.key)
def test_a_line_in_its_place_names_none(danger: Danger) -> None:
    assert figures_named(f"{danger.words} {danger.then}") == []


def test_figures_are_found() -> None:
    """The finder itself: in words, in a comparison, in what is called, and in neither."""
    assert figures_named("press for 10 minutes") == ["1", "0"]
    assert figures_named("no stool for a day") == ["for a day"]
    assert figures_named("within three days") == []
    assert figures_read(lambda facts: facts.volume > OUTPUT_CALL.value) == {"OUTPUT_CALL"}
    assert figures_read(lambda facts: facts.pulse > 110) == {"110"}
    assert figures_read(lambda facts: facts.pain_0_10) == {"pain_0_10"}
    assert figures_read(lambda facts: facts.colour) == set()
