"""The space of findings, cut into steps, walked through evenly.

Every state has a number; the digits of the number in mixed base choose one value from every axis.
The axes are in ``sweep_axes.py``.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from math import gcd, prod
from typing import Any, Final

from planning import Plan, recommend
from planning.inputs.findings import (
    Construction,
    Findings,
    History,
    Output,
    Stoma,
    Vitals,
)
from tests.planning.builders import GROWN, WELL
from tests.planning.sweep_axes import AXES

SIZE: Final = prod(len(values) for values in AXES.values())


def states(count: int) -> Iterator[tuple[Findings, History]]:
    """``count`` different states spread evenly over the space, always the same ones."""
    return map(state, numbers(count))


def planned(count: int) -> Iterator[tuple[Findings, History, Plan]]:
    """The first ``count`` of those states with their plans, each made once in a process."""
    for found, history in islice(states(count), len(_PLANNED), None):
        _PLANNED.append((found, history, recommend(found, history)))
    return iter(_PLANNED[:count])


_PLANNED: Final[list[tuple[Findings, History, Plan]]] = []


def numbers(count: int, start: int = 0, step: int = 1) -> Iterator[int]:
    """The numbers of those states; every ``step``-th from ``start``, to share them out.

    The stride has no factor in common with the size, so that no state comes twice.
    """
    stride = int(SIZE * 0.6180339887) | 1
    while gcd(stride, SIZE) > 1:
        stride += 2
    return (i * stride % SIZE for i in range(start, min(count, SIZE), step))


def state(number: int) -> tuple[Findings, History]:
    """The state with this number."""
    chosen: dict[str, Any] = {}
    for name, values in AXES.items():
        number, digit = divmod(number, len(values))
        chosen[name] = values[digit]
    measurement = replace(
        WELL.measurement, **({"protrusion_mm": chosen["protrusion"]} | chosen["stoma"])
    )
    besides = chosen["besides"]
    person = replace(chosen["person"], age_years=GROWN, medicines=besides.get("medicines"))
    output = replace(
        besides.get("output", Output()),
        vitals=besides.get("vitals", Vitals()),
        present=besides.get("present", frozenset()),
        absent=besides.get("absent", frozenset()),
    )
    found = Findings(
        person=person,
        stoma=Stoma(
            chosen["kind"], Construction.LOOP if measurement.loop else None, chosen["days"]
        ),
        measurement=measurement,
        skin=chosen["skin"],
        abdomen=chosen["abdomen"],
        output=output,
        system=chosen["system"],
        wear=besides.get("wear"),
        wounds=besides.get("wounds"),
        other_stomas=besides.get("other_stomas"),
    )
    return found, chosen["history"]
