"""Every sentence a paper for patients can say, gathered from where it is said."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from django.conf import settings

from clinic.documents.care_sheet import build as care_sheet
from clinic.documents.care_sheet import clock_face_words, emergency, sizes, step_drawings
from clinic.documents.cutting_template import build as cutting_template
from clinic.documents.how_soon import LOOK_TITLES, without_later
from clinic.documents.living import words as living
from clinic.documents.patient_language import lay_terms
from clinic.documents.patient_language.replaced_ids import Key, today
from clinic.documents.wear_diary import build as wear_diary
from clinic.patient_answers.questions import NOT_VALIDATED, OVER, QUESTIONS
from clinic.patients.models import StomaKind
from clinic.referrals.models import Urgency
from planning.children.dangers import IN_WORDS
from planning.children.plan import (
    AGAIN,
    CLEAR_OF_NAPPY,
    KEEP,
    MEASURE_AGAIN,
    NEVER,
    TEAM_PLANS,
    WELL,
)
from planning.recommendations import blockage
from planning.recommendations.situations import SITUATIONS
from planning.results.message import AFTER, DANGER, SUPPLY, Words, to_patient
from planning.safety import call_when, follow_up, red_flags, routine
from planning.safety.emergency import MEANWHILE
from planning.supplies.catalogue import CATALOGUE
from planning.technique import RULES as STEPS

ROOT = Path(settings.BASE_DIR)


def everything() -> set[Key]:
    """The sheet's own words, the templates' and the planner's."""
    return {*tables(), *said_in_code(), *said_in_templates(), *planner()}


def tables() -> Iterator[Key]:
    """Constants of the sheet that are said by name."""
    unmarked = (
        *(
            care_sheet.NO_CHILD_PLAN,
            care_sheet.LEAVE_ALONE,
            care_sheet.ASK_HOW,
            care_sheet.NO_REASON,
            care_sheet.STILL_WELL,
            care_sheet.UNCHANGED,
        ),
        *living_words(),
        *care_sheet.CALL_TITLES.values(),
        *(emergency.GET_HELP, emergency.DO_FIRST, emergency.NEEDS_A_DOCTOR),
        *(*LOOK_TITLES.values(), emergency.CLINICIAN_SAYS),
        *(emergency.ALSO, emergency.ONE_MORE, emergency.TOP_FIRST),
        *(
            clock_face_words.FOLD,
            clock_face_words.GAP,
            clock_face_words.BULGE,
            clock_face_words.SKIN_WELL,
            clock_face_words.SKIN_UNKNOWN,
        ),
        *(*lay_terms.SKIN_WORDS.values(), *lay_terms.DIRECTIONS, *lay_terms.SITES.values()),
        *(lay_terms.ALL_ROUND, lay_terms.MOST_ROUND, sizes.DOME),
        *(kind.label for kind in StomaKind),
        *(words for one in QUESTIONS for words in (one.asks, one.none, one.most)),
        *(OVER, NOT_VALIDATED),
        *(words for _, *both in wear_diary.REASONS.values() for words in both),
        *cutting_template.TITLES.values(),
        *(*cutting_template.SHOWN.values(), *cutting_template.SEEN.values()),
    )
    yield from (("", words) for words in unmarked)
    yield from ((care_sheet.ROW, words) for words in care_sheet.LABELS.values())
    yield from ((care_sheet.ROW, words) for words in care_sheet.NEWS.values())
    yield from ((clock_face_words.FELT_WORD, words) for _, words in clock_face_words.FELT)
    yield from ((step_drawings.PICTURE, words) for words in step_drawings.SHOWS.values())
    yield from ((lay_terms.MONTH, words) for words in lay_terms.MONTHS)
    yield from ((lay_terms.WEEKDAY, words) for words in lay_terms.WEEKDAYS)
    yield from ((wear_diary.SHORT_WEEKDAY, words) for words in wear_diary.SHORT_WEEKDAYS)
    yield from ((context, "{number} inch") for context in (lay_terms.FRACTION, lay_terms.ONE))
    yield lay_terms.MANY, "{number} inches"


def living_words() -> Iterator[str]:
    """Every constant of the leaf about living with a stoma."""
    for name, held in vars(living).items():
        if name.isupper():
            yield from [held] if isinstance(held, str) else held


def said_in_code() -> Iterator[Key]:
    """Literals of a ``Phrase``, and of the formatter's ``count``."""
    for path in (ROOT / "clinic" / "documents").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call):
                yield from _literal(node, ast.unparse(node.func))


def _literal(call: ast.Call, name: str) -> Iterator[Key]:
    first = call.args[0] if call.args else None
    if not isinstance(first, ast.Constant):
        return
    if name.endswith(".count") or (name in {"Phrase", "Phrase.of"} and len(call.args) == 1):
        yield "", str(first.value)


def said_in_templates() -> Iterator[Key]:
    for path in (ROOT / "templates" / "documents").rglob("*.html"):
        text = path.read_text()
        yield from (("", words) for words in re.findall(r'{% translate "([^"]+)"', text))
        yield from re.findall(r'{% translate_as "([^"]+)" "([^"]+)"', text)


def planner() -> Iterator[Key]:
    """The id of everything that the planner says to patients."""
    yield from ((SUPPLY, supply.patient_name) for supply in CATALOGUE)
    for danger in (*call_when.DANGERS, *IN_WORDS):
        yield DANGER, danger.words
        yield from ([(AFTER, danger.then)] if danger.then else [])
    yield from (("", join) for join in ("{first}, or {second}", "{first}. Or {second}"))
    told: list[Words | None] = [step.patient for step in STEPS]
    rules = (*red_flags.RULES, *red_flags.NOT_FOR_ADULTS)
    flags = [to_patient(rule.patient_text) for rule in rules if rule.patient_text]
    flags += [to_patient(words) for rule in rules for words in rule.told_at.values()]
    told += [text for rule in rules for text in rule.besides]
    # And what is left where the page has a higher urgency.
    told += [*flags, *(without_later(flag, level) for flag in flags for level in Urgency)]
    told += [NEVER.patient_text, KEEP.patient_text, TEAM_PLANS, AGAIN]
    told += [WELL.patient_text, MEASURE_AGAIN, CLEAR_OF_NAPPY.patient_text]
    # A step as plans signed earlier hold it.
    told.append(today(to_patient("Pat the skin dry. A little blood on the cloth is normal.")))
    told += [visit.plain for visit in (*routine.VISITS, routine.YEARLY, routine.UNKNOWN)]
    told += [rule.plain for rule in follow_up.RULES]
    told.append(MEANWHILE.patient_text)
    told += [*blockage.FIRST_AID, *blockage.SIP, blockage.NOTHING, blockage.NO_SOLIDS]
    told += [blockage.ONLY_SIPS, blockage.MOIST, blockage.TAKE_ALONG]
    told += [blockage.GARMENT_OFF, blockage.TIGHT, blockage.AS_USUAL]
    told += [one.patient_text for one in SITUATIONS if one.patient_text]
    # Beside a day of change, by its name.
    told += ["Change every day.", "Change at once if it itches, burns or leaks."]
    for words in told:
        yield from ((message.context, message.id) for message in to_patient(words) or ())
    yield from (("", words) for words in recommended())


def recommended() -> Iterator[str]:
    """Patient texts written where recommendations are made, found by their parameter."""
    names = (
        *("advice", "suspected_product", "bulge_support", "refer", "step_advice"),
        *("supply_words", "supplies"),
    )
    for name in names:
        path = ROOT / "planning" / "recommendations" / f"{name}.py"
        yield from _patient_texts(ast.parse(path.read_text()))
    yield from _patient_texts(ast.parse((ROOT / "planning" / "keep_current_system.py").read_text()))


def _patient_texts(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            place = {"_tip": 2, "_ask": 2}.get(node.func.id)
            if place is not None and len(node.args) > place:
                yield from _text(node.args[place])
            yield from (
                text
                for keyword in node.keywords
                if keyword.arg == "patient_text"
                for text in _text(keyword.value)
            )
        elif isinstance(node, ast.FunctionDef) and node.name == "opening_patient":
            for inside in ast.walk(node):
                if isinstance(inside, ast.Return) and inside.value is not None:
                    yield from _text(inside.value)
        elif isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "plain":
            yield from _text(node.value)


def _text(node: ast.expr) -> Iterator[str]:
    """Plain words, or those in a text or message made of them."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.Call) and ast.unparse(node.func) in {"to_patient", "Message.of"}:
        for argument in node.args:
            yield from _text(argument)
