"""What is done under 16, or where the age is not known, in lines of the list of rules."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.children.dangers import IN_WORDS
from planning.children.missing import DEMANDED
from planning.children.plan import CLEAR_OF_NAPPY, KEEP, NEVER, WORDS
from planning.evidence.sources import DESIGN, PRACTICE
from planning.inputs.age import AgeGroup
from planning.rulebook.rule import Rule
from planning.safety.red_flags import NOT_FOR_ADULTS
from planning.safety.red_flags import RULES as FLAGS

GROUP: Final = "Under 16"
_TESTED: Final = "tests/planning/children/test_child_rules.py"


def under_16() -> Iterator[Rule]:
    """Red flags that differ from those for adults, lines of the sheet, advice, questions."""
    words = WORDS[AgeGroup.CHILD]
    yield Rule(GROUP, "paediatric_team", words.headline, words.notice, (DESIGN,), _TESTED)
    yield Rule(GROUP, "tomorrow", words.again, "Again tomorrow, whatever was found.", (DESIGN,),
               _TESTED)  # fmt: skip
    for advice in (KEEP, NEVER):
        sources = advice.because[0].sources
        yield Rule(GROUP, advice.key, advice.text, "Shown with every such plan.", sources, _TESTED)
    nappy = CLEAR_OF_NAPPY
    shown = "Shown where the pouch of a child under one year leaks."
    yield Rule(GROUP, nappy.key, nappy.text, shown, nappy.because[0].sources, _TESTED)
    for flag in NOT_FOR_ADULTS:
        if flag not in FLAGS:
            effect = f"Refers to {flag.refer_to}. {flag.do}"
            where = f"{_TESTED}::test_no_row_of_the_table_is_lost_or_less_urgent"
            yield Rule(GROUP, flag.key, flag.text, effect, flag.sources, where)
    for danger in IN_WORDS:
        title = f"Call when {danger.words}"
        effect = f"Printed: {danger.urgency.value.replace('_', ' ')}."
        yield Rule(GROUP, danger.key, title, effect, danger.sources, _TESTED)
    for lack in DEMANDED:
        yield Rule(GROUP, lack.key, lack.text, "Asked for.", (PRACTICE,), _TESTED)
