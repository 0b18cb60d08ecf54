"""The developers' guide says what is there: its picture, its files, its dates."""

import re
import tomllib
from pathlib import Path
from xml.etree import ElementTree

import pytest

ROOT = Path(__file__).resolve().parents[1]
GUIDE = (ROOT / "DEVELOPERS.md").read_text()
PICTURE = ROOT / ".guide" / "house.svg"
CONTRACTS = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"][
    "contracts"
]
SVG = "{http://www.w3.org/2000/svg}"
#: Folders whose files the guide may name.
FOLDERS = (
    "clinic",
    "planning",
    "templates",
    "static",
    "tests",
    "fixtures",
    ".pins",
    ".ci",
    ".guide",
)
FILES = [
    f"/{path.relative_to(ROOT).as_posix()}"
    for folder in FOLDERS
    for path in (ROOT / folder).rglob("*")
    if "__pycache__" not in path.parts
] + [f"/{path.name}" for path in ROOT.iterdir()]
#: An ending, an example, and what only exists once made.
NO_FILES = {".po", "file.py", ".screenshots/"}
ENDING = re.compile(r"\.(py|html|css|js|svg|md|toml|po)$|/$")


def layers(house: str) -> list[list[str]]:
    """The import order of one house, as the linter holds it to."""
    (found,) = (
        one["layers"]
        for one in CONTRACTS
        if one["type"] == "layers"
        and "containers" not in one
        and one["layers"][-1].startswith(house)
    )
    return [[name.strip() for name in row.split("|")] for row in found]


def drawn(house: str) -> list[list[str]]:
    """Names in the picture by row, from top to bottom."""
    rows: dict[float, list[str]] = {}
    for text in ElementTree.parse(PICTURE).iter(f"{SVG}text"):  # noqa: S314 - our own picture
        name = text.get("id", "")
        if name.startswith(house):
            assert text.text == name.partition(".")[2]
            rows.setdefault(float(text.get("y", "0")), []).append(name)
    return [names for _, names in sorted(rows.items())]


@pytest.mark.parametrize("house", ["clinic.", "planning."])
def test_the_picture_has_the_import_order(house: str) -> None:
    assert drawn(house) == layers(house)


def test_every_app_and_stage_is_in_the_picture_and_no_other() -> None:
    apps = {f"clinic.{path.parent.name}" for path in (ROOT / "clinic").glob("*/apps.py")}
    stages = {f"planning.{path.parent.name}" for path in (ROOT / "planning").glob("*/__init__.py")}
    shown = {name for house in ("clinic.", "planning.") for row in drawn(house) for name in row}
    assert apps | stages <= shown
    files = {f"planning.{path.stem}" for path in (ROOT / "planning").glob("*.py")}
    assert shown <= apps | stages | files


def test_the_picture_is_shown_and_asks_for_nothing() -> None:
    assert "](.guide/house.svg)" in GUIDE
    text = PICTURE.read_text()
    assert "prefers-color-scheme: dark" in text
    assert "http" not in text.replace('xmlns="http://www.w3.org/2000/svg"', "")


def named_files() -> list[str]:
    """What is written between backticks and looks like a file or a folder; ``*`` and ``…`` mean
    anything."""
    quoted = re.findall(r"`([^`\n]+)`", re.sub(r"(?m)^    .*$", "", GUIDE))
    found = [one.partition(":")[0] for one in quoted if not re.search(r"[ <({\"]", one)]
    files = {one for one in found if ENDING.search(one) and not one.startswith(("/", "--"))}
    return sorted(files - NO_FILES)


@pytest.mark.parametrize("name", named_files())
def test_a_file_it_names_exists(name: str) -> None:
    parts = re.split(r"\*|…", name.rstrip("/"))
    pattern = re.compile(rf"/{'[^/]*'.join(map(re.escape, parts))}$")
    assert any(pattern.search(path) for path in FILES)


def test_it_names_files() -> None:
    assert len(named_files()) > 40


@pytest.mark.parametrize("module", sorted(set(re.findall(r"python -m (tests\.[\w.]+)", GUIDE))))
def test_a_module_it_runs_exists(module: str) -> None:
    path = ROOT / module.replace(".", "/")
    assert path.with_suffix(".py").exists() or (path / "__main__.py").exists()


def test_decisions_are_dated() -> None:
    entries = re.split(r"(?m)^- ", GUIDE.partition("## Decisions")[2])[1:]
    assert len(entries) > 15
    dated = re.compile(r"\*[^*]+\*\s+\(\d+\s+\w+\s+\d{4}\)")
    assert not [one for one in entries if not dated.match(one)]


def test_sentences_are_short() -> None:
    """Outside tables and code."""
    text = re.sub(r"(?m)^(    |\|).*$", "", GUIDE)
    sentences = re.split(r"[.:;?](?:\s|$)|\n\s*\n", text)
    longest = max(sentences, key=lambda one: len(one.split()))
    assert len(longest.split()) <= 40, longest
