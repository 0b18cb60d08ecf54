"""Every sentence a paper for patients can say, gathered from where it is said."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from django.conf import settings

from clinic.documents import care_sheet, diary, emergency, marks, pictures, plain, sizes, template
from clinic.documents.how_soon import without_later
from clinic.documents.wording.plan_words import AFTER, DANGER, SUPPLY
from clinic.documents.wording.templates import TEMPLATES
from clinic.documents.wording.withdrawn import said_today
from clinic.patients.models import StomaKind
from clinic.plans.models import Urgency
from planning.children.dangers import IN_WORDS
from planning.children.plan import AGAIN, KEEP, NEVER, TEAM_PLANS
from planning.safety import call_when, follow_up, red_flags, routine
from planning.safety.emergency import MEANWHILE
from planning.supplies.catalogue import CATALOGUE
from planning.technique import RULES as STEPS

#: Context ("" for none) and English sentence, as a catalogue has them.
Key = tuple[str, str]
ROOT = Path(settings.BASE_DIR)
_SENTENCES = re.compile(r"(?<=[.!?]) ")


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
        ),
        *care_sheet.CALL_TITLES.values(),
        *(emergency.GET_HELP, emergency.DO_FIRST, emergency.NEEDS_A_DOCTOR),
        *(*emergency.LOOK_TITLES.values(), emergency.CLINICIAN_SAYS),
        *(emergency.ALSO, emergency.ONE_MORE, emergency.TOP_FIRST),
        *(marks.FOLD, marks.GAP, marks.BULGE, marks.SKIN_WELL, marks.SKIN_UNKNOWN),
        *(*plain.SKIN_WORDS.values(), *plain.DIRECTIONS, *plain.SITES.values()),
        *(plain.ALL_ROUND, plain.MOST_ROUND, sizes.DOME),
        *(kind.label for kind in StomaKind),
        *(words for _, *both in diary.REASONS.values() for words in both),
        *template.TITLES.values(),
        *(*template.SHOWN.values(), *template.SEEN.values()),
        *TEMPLATES,
    )
    yield from (("", words) for words in unmarked)
    yield from ((care_sheet.ROW, words) for words in care_sheet.LABELS.values())
    yield from ((care_sheet.ROW, words) for words in care_sheet.NEWS.values())
    yield from ((marks.FELT_WORD, words) for _, words in marks.FELT)
    yield from ((pictures.PICTURE, words) for words in pictures.SHOWS.values())
    yield from ((plain.MONTH, words) for words in plain.MONTHS)
    yield from ((plain.WEEKDAY, words) for words in plain.WEEKDAYS)
    yield from ((diary.SHORT_WEEKDAY, words) for words in diary.SHORT_WEEKDAYS)
    yield from ((context, "{number} inch") for context in (plain.FRACTION, plain.ONE))
    yield plain.MANY, "{number} inches"


def said_in_code() -> Iterator[Key]:
    """First words of ``say`` and ``count`` where they stand as they are."""
    for path in (ROOT / "clinic" / "documents").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                yield from _literal(node, node.func.attr)
    yield from (("", words) for words in ("{first}, or {second}", "{first}. Or {second}"))


def _literal(call: ast.Call, name: str) -> Iterator[Key]:
    first = call.args[0] if call.args else None
    if name not in {"say", "count"} or not isinstance(first, ast.Constant):
        return
    if len(call.args) == 1 or name == "count":
        yield "", str(first.value)


def said_in_templates() -> Iterator[Key]:
    for path in (ROOT / "templates" / "documents").glob("*.html"):
        text = path.read_text()
        yield from (("", words) for words in re.findall(r'{% say "([^"]+)"', text))
        yield from re.findall(r'{% say_as "([^"]+)" "([^"]+)"', text)


def planner() -> Iterator[Key]:
    """Everything constant that the planner says to patients."""
    yield from ((SUPPLY, supply.patient_name) for supply in CATALOGUE)
    for danger in (*call_when.DANGERS, *IN_WORDS):
        yield DANGER, danger.words
        yield from ([(AFTER, danger.then)] if danger.then else [])
    told = [step.patient for step in STEPS]
    rules = (*red_flags.RULES, *red_flags.NOT_FOR_ADULTS)
    flags = [rule.patient_text for rule in rules if rule.patient_text]
    flags += [text for rule in rules for text in rule.told_at.values()]
    # And what is left where a higher urgency stands on the page.
    told += [*flags, *(without_later(flag, level) for flag in flags for level in Urgency)]
    told += [NEVER.patient_text, KEEP.patient_text, TEAM_PLANS, AGAIN]
    # A step as plans signed earlier hold it.
    told.append(said_today("Pat the skin dry. A little blood on the cloth is normal."))
    told += [visit.plain for visit in (*routine.VISITS, routine.YEARLY, routine.UNKNOWN)]
    told += [rule.plain for rule in follow_up.RULES]
    told.append(MEANWHILE.patient_text)
    # Put together with a number of days where it is said.
    told += ["Change every day.", "Change at once if it itches, burns or leaks."]
    told += ["Change it on the day you do now."]
    told += ["Write down each change, so that we can find the cause."]
    yield from (("", words) for words in told if words)
    yield from (("", words) for words in recommended())


def recommended() -> Iterator[str]:
    """Patient texts written where recommendations are made, told by what they are passed as."""
    for name in ("advice", "contact", "support", "refer", "words", "supplies"):
        path = ROOT / "planning" / "recommendations" / f"{name}.py"
        yield from _patient_texts(ast.parse(path.read_text()))
    yield from _patient_texts(ast.parse((ROOT / "planning" / "leave_alone.py").read_text()))


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
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
