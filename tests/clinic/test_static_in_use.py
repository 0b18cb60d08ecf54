"""Nothing in the style sheets and scripts is left over: every selector's names are used in a
template, a script or the code, and every file is asked for."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings

ROOT = Path(settings.BASE_DIR)
SHEETS = sorted((ROOT / "static" / "css").glob("*.css"))
SCRIPTS = sorted((ROOT / "static" / "js").glob("*.js"))
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
CODE = sorted(path for path in (ROOT / "clinic").rglob("*.py") if "migrations" not in path.parts)
#: Set by htmx itself while it waits; how Django marks a message that something was done.
FROM_OUTSIDE = {"htmx-request", "success"}
#: A piece of a name that is only known when the page is made.
OPEN = "\0"
_WORDS = re.compile(rf"[\w{OPEN}-]+")
_TAGS = re.compile(r"\{%.*?%\}", re.DOTALL)
_VALUES = re.compile(r"\{\{.*?\}\}|\$\{[^}]*\}|\{[^{}]*\}", re.DOTALL)


def names_in(sheet: str) -> set[str]:
    """Classes and ids that the selectors of a style sheet name."""
    bare = re.sub(r"/\*.*?\*/|\"[^\"]*\"", "", sheet, flags=re.DOTALL)
    heads = [head for head in re.findall(r"([^{};]+)\{", bare) if "@page" not in head]
    return {name for head in heads for name in re.findall(r"[.#]([A-Za-z_][\w-]*)", head)}


def _attributes(text: str) -> Iterator[str]:
    for value in re.findall(r"\{% block body_class %\}([\w ]+)\{% endblock %\}", text):
        yield from _WORDS.findall(value)
    for value in re.findall(r'\b(?:class|id|for)=\\?"((?:\{%.*?%\}|\{\{.*?\}\}|[^"])*)"', text):
        yield from _WORDS.findall(_VALUES.sub(OPEN, _TAGS.sub(" ", value)))
        # What a tag chooses between is in it as words.
        for tag in re.findall(r'"([^"]*)"', " ".join(_TAGS.findall(value))):
            yield from _WORDS.findall(tag)


def _code_strings() -> Iterator[str]:
    """Strings of the code that may be names: a few words without capitals or full stops."""
    for path in CODE:
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.JoinedStr):
                parts = [v.value if isinstance(v, ast.Constant) else OPEN for v in node.values]
                yield from _WORDS.findall("".join(map(str, parts)))
            elif isinstance(node, ast.Constant) and isinstance(node.value, str):
                if re.fullmatch(r"[a-z0-9_-]+( [a-z0-9_-]+){0,3}", node.value):
                    yield from node.value.split()
                else:
                    yield from _attributes(node.value)


def _script_strings() -> Iterator[str]:
    for path in SCRIPTS:
        for quoted in re.findall(r"\"[^\"\n]*\"|'[^'\n]*'|`[^`]*`", path.read_text()):
            yield from _WORDS.findall(_VALUES.sub(OPEN, quoted))


def used() -> tuple[set[str], list[re.Pattern[str]]]:
    """Names that are written out, and patterns of those put together."""
    found = {word for path in TEMPLATES for word in _attributes(path.read_text())}
    found |= {*_code_strings(), *_script_strings(), *FROM_OUTSIDE}
    composed = {word for word in found if OPEN in word and len(re.findall("[a-z]", word)) > 3}
    patterns = [
        re.compile(".+".join(re.escape(part) for part in word.split(OPEN))) for word in composed
    ]
    return found, patterns


WRITTEN, COMPOSED = used()


def is_used(name: str) -> bool:
    if name in WRITTEN or any(pattern.fullmatch(name) for pattern in COMPOSED):
        return True
    if found := re.fullmatch(r"(?:div_)?id_\w+-(\w+)", name):  # a field, as Django names it
        return found[1] in WRITTEN
    if found := re.fullmatch(r"(?:a4|letter)-(\w+)", name):  # a page of paper, by its head
        return found[1] in WRITTEN
    return False


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.name)
def test_every_name_of_a_style_sheet_is_used(sheet: Path) -> None:
    names = names_in(sheet.read_text())
    assert not sorted(name for name in names if not is_used(name))


def test_a_name_nobody_uses_is_found() -> None:
    names = names_in(".panel, .left-over-of-old { margin: 0 } #nowhere-at-all > p { margin: 0 }")
    assert {name for name in names if not is_used(name)} == {"left-over-of-old", "nowhere-at-all"}


@pytest.mark.parametrize("path", [*SHEETS, *SCRIPTS], ids=lambda path: path.name)
def test_every_file_is_asked_for(path: Path) -> None:
    asking = [one.read_text() for one in (*TEMPLATES, *SCRIPTS, *SHEETS, *CODE) if one != path]
    assert any(f"/{path.name}" in text for text in asking)


def test_every_export_is_imported() -> None:
    texts = {path: path.read_text() for path in SCRIPTS}
    for path, text in texts.items():
        for name in re.findall(r"^export (?:async )?(?:function|const|class) (\w+)", text, re.M):
            others = (other for one, other in texts.items() if one != path)
            assert any(re.search(rf"\b{name}\b", other) for other in others), (path.name, name)
