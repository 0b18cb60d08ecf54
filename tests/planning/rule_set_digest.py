"""What the version of the rules stands for: figures, sentences, rules and the plans they make.

A signed plan names its rule set, so two plans of one name must come from the same rules. The
digests of the rules in force are in ``rule_set_digest.json`` beside the version.

    python -m tests.planning.rule_set_digest     # record, once RULE_SET is raised

Where figures, sentences, rules and plans are the same and only the code was rearranged, it
records under the same version.
"""

from __future__ import annotations

import ast
import hashlib
import json
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import planning
from planning import recommend
from planning.evidence.rule_set import RULE_SET
from planning.evidence.thresholds import all_thresholds
from planning.results.snapshot import findings_from_dict, history_from_dict, plan_to_dict
from planning.results.text_json import text_from_json
from planning.rulebook import all_rules
from tests.planning.safety.dangers import DANGERS
from tests.planning.sweep import planned

RECORDED = Path(__file__).with_suffix(".json")
SOURCES = Path(planning.__file__).parent
CASES = SOURCES.parent / "fixtures" / "cases"
#: States of the sweep whose plans are part of the digest.
PLANS = 1_500

Node = ast.AST


def digests() -> dict[str, str]:
    """By part; ``code`` also changes when code is only rearranged."""
    return {
        "figures": _hash(_figures()),
        "sentences": _hash(_sentences()),
        "rules": _hash(_rules()),
        "plans": _hash(_plans()),
        "code": _hash(sorted(_definitions())),
    }


def _hash(lines: Iterable[str]) -> str:
    digest = hashlib.sha256()
    for line in lines:
        digest.update(line.encode() + b"\n")
    return digest.hexdigest()


def _figures() -> Iterator[str]:
    for name, figure in sorted(all_thresholds().items()):
        yield f"{name} {figure.value} {figure.unit} {figure.source}"


def _rules() -> list[str]:
    """What each rule is called, does and rests on, in any file."""
    rows = ((r.group, r.key, r.title, r.effect, r.sources) for r in all_rules())
    return sorted(map(repr, rows))


def _trees() -> Iterator[ast.Module]:
    for path in sorted(SOURCES.rglob("*.py")):
        if path.name != "rule_set.py":
            yield _without_docstrings(ast.parse(path.read_text()))


def _without_docstrings(tree: ast.Module) -> ast.Module:
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef)
    for node in ast.walk(tree):
        if isinstance(node, documented) and ast.get_docstring(node) is not None:
            node.body = node.body[1:]
    return tree


def _sentences() -> list[str]:
    """Every text of more than one word, in any file."""
    found = {
        node.value
        for tree in _trees()
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and " " in node.value
    }
    return sorted(found)


def _definitions() -> Iterator[str]:
    """Every statement at the top of a file but its imports, whichever file holds it."""
    for tree in _trees():
        for node in tree.body:
            if not isinstance(node, (ast.Import, ast.ImportFrom)):
                yield _dump(node)


def _dump(part: Any) -> str:
    """As ``ast.dump``, but the same in every version of Python: empty fields are left out."""
    if isinstance(part, ast.AST):
        filled = ((name, value) for name, value in ast.iter_fields(part) if value not in (None, []))
        return f"{type(part).__name__}({','.join(f'{n}={_dump(v)}' for n, v in filled)})"
    if isinstance(part, list):
        return f"[{','.join(map(_dump, part))}]"
    return repr(part)


def _plans() -> Iterator[str]:
    for _, _, plan in planned(PLANS):
        yield _plan(plan_to_dict(plan))
    for danger in DANGERS:
        for findings in (danger.on_a_well_stoma, danger.and_nothing_else_known):
            yield _plan(plan_to_dict(recommend(findings)))
    for path in sorted(CASES.glob("*.json")):
        case = json.loads(path.read_text())
        history = history_from_dict(case.get("history", {}))
        yield _plan(plan_to_dict(recommend(findings_from_dict(case["findings"]), history)))


def _plan(plan: dict[str, Any]) -> str:
    return json.dumps(_rounded({**plan, "rule_set": ""}), sort_keys=True)


def _rounded(part: Any) -> Any:
    """Six figures, so that another processor's last digit is no other rule; and what is said to
    the patient as it reads, however it is stored."""
    if isinstance(part, float):
        return f"{part:.6g}"
    if isinstance(part, dict):
        return {key: _rounded(_read(key, value)) for key, value in part.items()}
    return [_rounded(value) for value in part] if isinstance(part, list) else part


def _read(key: str, value: Any) -> Any:
    return text_from_json(value).english() if key == "patient_text" and value else value


def recorded() -> dict[str, str]:
    """The digests on record and, under ``version``, the rule set they belong to."""
    found: dict[str, str] = json.loads(RECORDED.read_text())
    return found


def record() -> str:
    """Put the digests of today on record; refuses to give changed rules an old name."""
    before, now = (recorded() if RECORDED.exists() else {}), digests()
    changed = [part for part in now if part != "code" and before.get(part) != now[part]]
    if changed and before.get("version") == RULE_SET:
        return f"Not recorded: raise RULE_SET first, as it changed in {', '.join(changed)}."
    RECORDED.write_text(json.dumps({"version": RULE_SET, **now}, indent=2) + "\n")
    return f"Recorded as {RULE_SET}."


if __name__ == "__main__":
    print(record())
    sys.exit(0 if recorded()["version"] == RULE_SET else 1)
