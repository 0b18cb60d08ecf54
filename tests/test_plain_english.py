"""Screens, papers, plans, scripts and docstrings use plain English, and one word for one thing.

What patients read is left out: its sentences are keys of the translation catalogues, and
``test_catalogues.py`` and the readability tests hold them.
"""

import ast
import io
import re
import tokenize
from collections.abc import Callable, Iterator
from functools import cache
from itertools import chain
from pathlib import Path

import pytest

Reader = Callable[[], Iterator[tuple[str, str]]]

ROOT = Path(__file__).parents[1]
CLINIC = ROOT / "clinic"
PLANNING = ROOT / "planning"

#: Turns of speech to avoid -> what to say instead.
DIALECT = {
    r"on whose word": "source",
    r"\banew\b": "again",
    r"\ball the same\b(?! day)": "anyway; still",
    r"\bwhoever\b": "anyone who; the person who",
    r"\bnobody\b": "no one; no patients; not … yet",
    r"\bstands?\b(?! for\b| straight\b)": "is; is shown; is recorded; applies",
    r"\btold\b(?! apart)": "shown; recorded; warned; known",
    r"\bspeaks? (for|against|of)\b": "suggests; supports; names",
    r"\btaken for\b": "assumed to be",
    r"\bunder suspicion\b": "suspected",
    r"\bhear (how|what)\b": "ask",
    r"\bmend(s|ed|ing)?\b": "fix; correct; improve",
    r"\bstruck\b": "applied; found something",
    r"otherwise than": "changed from",
    r"\bonce more\b": "again",
    r"\bmeanwhile\b": "in the meantime; leave it out",
    r"\bshall\b": "will; may",
    r"\blately\b": "recently",
    r"\bin more words\b": "details",
    r"\bgives? under pressure\b": "soft; firm; compressibility",
    r"\bdr(?:y|ies|ied|ying) out\b": "dehydration",
    r"\b(?:stoma and skin|skin and stoma) (?:have |has )?(?:come |are )?apart\b"
    r"|\b(?:separation|junction) of stoma and skin\b|\bseparated from the skin\b": (
        "mucocutaneous separation; mucocutaneous junction"
    ),
    r"\bslips? back\b": "reducible",
    r"\bedge copies\b": "sharp edge, shape of a product",
    r"\bnothing out for\b": "no output for",
    r"\basked about (?:all )?the others\b": "all others denied",
    r"\blanding zone\b": "skin under the barrier",
    r"\bgets a dome\b|\bmm of dome\b": "convexity advised",
    r"\bhow it did\b": "outcome; what came of it",
    r"\bpress(?:es)? like these\b": "urgent referrals",
    r"\bnew hands\b": "a new carer",
    r"\bgo on with\b": "continue",
    r"\bmust needs\b|\bhitherto\b|\bthereof\b|\bthereby\b|\bforthwith\b": "leave it out",
}

#: Sentences that keep a word above, each with its reason.
KEPT = {
    "nobody signed in": "stored in the access log, which is never rewritten",
    "Gateshead Health NHS ileostomy leaflets": "title of a source",
    "Northern Care Alliance NHS discharge leaflet": "title of a source",
    "Cambridge University Hospitals NHS urostomy discharge leaflet": "title of a source",
    "Salford NHS discharge leaflet": "title of a source",
    "Cambridge University Hospitals NHS leaflet on prolapse": "title of a source",
    "Antifungal powder, by prescription": "a prescriber orders it",
    "Meanwhile: keep a pouch on, flat, soft and roomy; nothing that presses "
    "(no convexity, no belt or garment, no rigid plate, no wide tape)": "a nurse reads it in an "
    "emergency, and it is short",
    "A newborn's or infant's skin takes up more. Leave off films and solvents with alcohol, "
    "tinctures that make tacky, routine paste, clouds of powder (they are breathed in), adhesive "
    "tape, strong extended-wear barriers, convexity, belts, scented wipes, antiseptics. Preterm: "
    "every product with the unit's pharmacist, else no powder, film, paste or "
    "remover.": "any solvent, not only adhesive remover",
    "No trend alert.": "of the course, which may alert without a red flag",
    "No other trend alert.": "of the course, which may alert without a red flag",
    "faint or unable to stand": "on one's feet",
    "Alert, drinking, and every sign of dehydration asked and absent, the weight "
    "included.": "a child who is wide awake",
}

#: Words of the glossary with another meaning in code, where docstrings and scripts use them.
CODE = {
    "advice": "the module that words what is not a supply",
    "verdict": "how an earlier plan did",
    "observation": "one value of a statistic",
    "locked": "a row of the database",
    "response": "what a server sends",
}

#: Where the sentences for patients live whole.
FOR_PATIENTS = (CLINIC / "documents/patient_language",)


def _glossary() -> dict[str, str]:
    """Words in italics under "Not" in the glossary -> the term to use."""
    text = (ROOT / "DEVELOPERS.md").read_text()
    section = text.split("## Glossary", 1)[1].split("\n## ", 1)[0]
    lines = [line for line in section.splitlines() if line.startswith("| **")]
    rows = [line.strip("| ").split(" | ") for line in lines]
    return {
        word: row[0].strip("*")
        for row in rows
        if len(row) == 3
        for word in re.findall(r"\*([^*]+)\*", row[2])
    }


def _said_to_patients() -> frozenset[str]:
    """Every sentence of the translation catalogues, as written in the source."""
    catalogue = (CLINIC / "documents/locale/es/LC_MESSAGES/sheet.po").read_text()
    entries = re.findall(r'^msgid ((?:".*"\n)+)', catalogue, re.M)
    return frozenset(
        "".join(ast.literal_eval(line) for line in entry.splitlines()) for entry in entries
    )


def _template_sentences() -> Iterator[tuple[str, str]]:
    for path in sorted((ROOT / "templates").rglob("*.html")):
        text = path.read_text()
        text = re.sub(r"(?s)\{% comment %\}.*?\{% endcomment %\}|\{#.*?#\}|<!--.*?-->", "", text)
        text = re.sub(r"(?s)\{%.*?%\}", "", text)
        text = re.sub(r"(?s)\{\{.*?\}\}", "…", text)
        attributes = re.findall(r'(?:aria-label|alt|title|placeholder|content)="([^"]*)"', text)
        inline = re.sub(r"(?s)</?(?:b|i|em|strong|span|a|small)\b[^>]*>", "", text)
        pieces = re.sub(r"(?s)<[^>]*>", "\n", inline).splitlines()
        for sentence in chain(pieces, attributes):
            if sentence.strip():
                yield str(path.relative_to(ROOT)), sentence.strip()


def _words(node: ast.AST) -> str | None:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.JoinedStr):
        return "".join(_words(part) or "…" for part in node.values)
    return None


def _strings(tree: ast.AST) -> Iterator[ast.expr]:
    """Every string but docstrings; one with values filled in counts as one."""
    waiting: list[ast.AST] = [tree]
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.expr) and _words(node) is not None:
            yield node
        elif not (isinstance(node, ast.Expr) and _words(node.value) is not None):
            waiting.extend(ast.iter_child_nodes(node))


def _python(*folders: Path) -> Iterator[Path]:
    """Files of ours; no migrations, and not where the sentences for patients live."""
    for path in chain.from_iterable(sorted(folder.rglob("*.py")) for folder in folders):
        if "migrations" not in path.parts and not any(
            home in path.parents for home in FOR_PATIENTS
        ):
            yield path


def _python_sentences() -> Iterator[tuple[str, str]]:
    for path in _python(CLINIC, PLANNING):
        for node in _strings(ast.parse(path.read_text())):
            sentence = (_words(node) or "").strip()
            if " " in sentence:
                yield f"{path.relative_to(ROOT)}:{node.lineno}", sentence


def _guides() -> Iterator[tuple[str, str]]:
    """Lines of the two guides without code; not the glossary, which names the words to avoid."""
    for name in ("README.md", "DEVELOPERS.md"):
        for line in (ROOT / name).read_text().splitlines():
            if line and not line.startswith("| **"):
                yield name, re.sub(r"`[^`]*`", "…", line)


def _docstrings() -> Iterator[tuple[str, str]]:
    """Docstrings without code in backticks, and comments; one of several lines as one."""
    for path in _python(CLINIC, PLANNING, ROOT / "fixtures", ROOT / "tests"):
        source = path.read_text()
        for node in ast.walk(ast.parse(source)):
            if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef)):
                text = re.sub(r"``?[^`]*``?", "…", ast.get_docstring(node) or "")
                yield f"{path.relative_to(ROOT)}:{getattr(node, 'name', '')}", text
        yield from _comments(path, source)


def _comments(path: Path, source: str) -> Iterator[tuple[str, str]]:
    lines: list[str] = []
    last = 0
    for token in tokenize.generate_tokens(io.StringIO(source).readline):
        if token.type != tokenize.COMMENT:
            continue
        row = token.start[0]
        if lines and row != last + 1:
            yield f"{path.relative_to(ROOT)}:{last}", " ".join(lines)
            lines = []
        lines.append(token.string.lstrip("#: "))
        last = row
    if lines:
        yield f"{path.relative_to(ROOT)}:{last}", " ".join(lines)


def _scripts() -> Iterator[tuple[str, str]]:
    """Messages and comments of the scripts, comments of the style sheets."""
    for path in sorted((ROOT / "static/js").glob("*.js")):
        text = path.read_text()
        comments = re.findall(r"((?:^[ \t]*//.*\n)+)", text, re.M)
        messages = re.findall(r'"([^"\n]* [^"\n]*)"|`([^`\n]* [^`\n]*)`', text)
        said = [re.sub(r"\s*//\s*", " ", comment) for comment in comments]
        said += [re.sub(r"\$\{[^}]*\}", "…", one or other) for one, other in messages]
        for sentence in said:
            yield str(path.relative_to(ROOT)), sentence.strip()
    for path in sorted((ROOT / "static/css").glob("*.css")):
        for comment in re.findall(r"(?s)/\*(.*?)\*/", path.read_text()):
            yield str(path.relative_to(ROOT)), " ".join(comment.split())


def _faults(sentence: str, instead: dict[str, str]) -> list[str]:
    if not _any_of(tuple(instead)).search(sentence):
        return []
    return [
        f"“{found[0]}” in “{sentence}”; say: {better}"
        for pattern, better in instead.items()
        if (found := re.search(pattern, sentence, re.I))
    ]


@cache
def _any_of(patterns: tuple[str, ...]) -> re.Pattern[str]:
    """One search for all, as nearly every sentence has none."""
    return re.compile("|".join(patterns), re.I)


def _held() -> dict[str, str]:
    return DIALECT | {rf"\b{re.escape(word)}s?\b": term for word, term in _glossary().items()}


@cache
def _all_of(read: Reader) -> tuple[tuple[str, str], ...]:
    """What it reads, read once."""
    return tuple(read())


def _faults_of(read: Reader, held: dict[str, str]) -> list[str]:
    exempt = _said_to_patients() | set(KEPT)
    read_here = [(where, sentence) for where, sentence in _all_of(read) if sentence not in exempt]
    assert len(read_here) > 300
    return [f"{where}: {fault}" for where, text in read_here for fault in _faults(text, held)]


@pytest.mark.parametrize("read", [_template_sentences, _python_sentences])
def test_screens_papers_and_plans_use_plain_english(read: Reader) -> None:
    faults = _faults_of(read, _held())
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize("read", [_docstrings, _scripts, _guides])
def test_docstrings_scripts_and_guides_use_plain_english(read: Reader) -> None:
    held = {pattern: better for pattern, better in _held().items() if not _is_code(pattern)}
    faults = _faults_of(read, held)
    assert not faults, "\n".join(faults)


def _is_code(pattern: str) -> bool:
    return any(re.search(pattern, word) for word in CODE)


@pytest.mark.parametrize(
    ("sentence", "better"),
    [
        ("On whose word", "source"),
        ("Nothing of it stands in the record.", "is; is shown; is recorded; applies"),
        ("The desk is told of it.", "shown; recorded; warned; known"),
        ("An edge that speaks for allergy.", "suggests; supports; names"),
        ("Cut the wafer to size.", "barrier"),
        ("Two appliances were tried.", "pouching system"),
        ("Skin join intact.", "mucocutaneous junction"),
        ("Gives under pressure: more", "soft; firm; compressibility"),
        ("Signs of drying out.", "dehydration"),
    ],
)
def test_a_word_to_avoid_names_the_better_one(sentence: str, better: str) -> None:
    (fault,) = _faults(sentence, _held())
    assert fault.endswith(f"say: {better}")


def test_each_sentence_kept_is_still_used() -> None:
    assert set(KEPT) <= {
        sentence for read in (_python_sentences, _docstrings) for _, sentence in _all_of(read)
    }


def test_each_kind_of_text_is_read() -> None:
    """A docstring, a comment of two lines, a script's message: each is found in its file."""
    docstrings, scripts = dict(_all_of(_docstrings)), {text for _, text in _all_of(_scripts)}
    assert any("Words of the glossary with another" in text for text in docstrings.values())
    assert any(text.startswith("Screens, papers, plans") for text in docstrings.values())
    assert "No connection: not saved. Kept here; trying again." in scripts
    assert any(text.startswith("After signing in again elsewhere") for text in scripts)


def test_the_glossary_sends_no_word_two_ways() -> None:
    words = _glossary()
    assert len(words) > 40
    assert not set(words) & set(words.values())
