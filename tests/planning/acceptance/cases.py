"""The acceptance cases in ``fixtures/acceptance``, read and completed.

A case names only what is special about it. What it does not name was looked at or asked and is
unremarkable: ``unremarkable.json`` holds those values once. A finding that a case gives as
``null``, or lists under ``not_asked``, is not recorded.
"""

from __future__ import annotations

import json
from copy import deepcopy
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Final

from planning import Findings, History
from planning.inputs.age import AgeGroup, age_group
from planning.inputs.findings import StomaKind
from planning.results.snapshot import findings_from_dict, history_from_dict

Json = dict[str, Any]

ROOM: Final = Path(__file__).parents[3] / "fixtures" / "acceptance"
UNREMARKABLE: Final = ROOM / "unremarkable.json"


@dataclass(frozen=True)
class Case:
    """``lacking``: findings of the case that the planner has no field for yet."""

    name: str
    theme: str
    path: Path
    title: str
    source: str
    findings: Findings
    history: History
    expect: Json
    lacking: tuple[Json, ...]


@cache
def cases() -> tuple[Case, ...]:
    """All of them, in the order of their names."""
    found = (read(path) for path in ROOM.glob("*/*.json"))
    return tuple(sorted(found, key=lambda case: case.name))


def read(path: Path) -> Case:
    """One case. Raises ``InvalidFindings`` where its findings do not fit the planner's fields."""
    data = json.loads(path.read_text())
    usual = json.loads(UNREMARKABLE.read_text())
    return Case(
        name=data["case"],
        theme=path.parent.name,
        path=path,
        title=data["title"],
        source=data["source"],
        findings=findings_from_dict(completed(data["findings"], usual, data.get("not_asked", []))),
        history=history_from_dict(_history(data.get("history", {}), usual)),
        expect=data["expect"],
        lacking=tuple(data.get("findings_not_yet_recordable", [])),
    )


def completed(given: Json, usual: Json, not_asked: list[str] | None = None) -> Json:
    """``given`` over ``usual``. What is present is not absent, what was not asked is neither."""
    whole = deepcopy(_over(usual, {"system": None, **given}))
    each = whole.pop("each_skin_finding", {})
    if whole.get("skin"):
        whole["skin"] = [{**each, **finding} for finding in whole["skin"]]
    person, output = whole["person"], whole["output"]
    gone = set(not_asked or ())
    person["has_not"] = _without(person["has_not"], {*person.get("has", []), *gone})
    output["absent"] = _without(output["absent"], {*output.get("present", []), *gone})
    if age_group(person.get("age_years")) is AgeGroup.CHILD:
        _of_a_child(person, output, given.get("output", {}).get("vitals", {}))
    else:
        person.pop("child_absent", None)
    if whole.get("stoma", {}).get("kind") == StomaKind.UROSTOMY:
        # What the bladder passes is asked beside a bowel stoma alone.
        output.pop("hours_without_urine", None)
    return whole


def _of_a_child(person: Json, output: Json, vitals: Json) -> None:
    """The signs of a child are asked; the usual pulse is an adult's, so only its own counts."""
    signs = person.get("child_absent", [])
    person["child_absent"] = _without(signs, set(person.get("child_present", [])))
    output["vitals"] = {**output.get("vitals", {}), "pulse": vitals.get("pulse")}


def _without(words: list[str], gone: set[str]) -> list[str]:
    return [word for word in words if word not in gone]


def _over(usual: Any, given: Any) -> Any:
    if not isinstance(usual, dict) or not isinstance(given, dict):
        return given
    return {
        key: _over(usual.get(key), given[key]) if key in given else usual[key]
        for key in {**usual, **given}
    }


def _history(given: Json, usual: Json) -> Json:
    """Earlier visits hold only what the case tells of them: nothing is made up about the past."""
    person = {"age_years": usual["person"].get("age_years")}
    visits = [{"person": person, **visit} for visit in given.get("previous", [])]
    return {**given, "previous": visits} if visits else given
