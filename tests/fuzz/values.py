"""What is typed: made by hypothesis, with what is known to break programs mixed in."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from random import Random
from typing import Final

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

#: Characters no field may keep, numbers no column holds, days no calendar has, far too much.
ODD: Final = (
    "",
    " ",
    "\0",
    "a\0b",
    "\ufffd",
    "\ud800",
    "caf\udce9",
    "\u202e\u200f\u200b",
    "e\u0301" * 40,
    "👩\u200d👩\u200d👧",
    "\r\n\tx: y",
    "<script>alert(1)</script>",
    "'; DROP TABLE x; --",
    "%s %(x)s {x} {{ x }} {% x %}",
    "../../../etc/passwd",
    "-1",
    "0",
    "-0.0",
    "007",
    "1e3",
    "1e999",
    "1e-999",
    "1E+1000000",
    "NaN",
    "Infinity",
    "-inf",
    "1_000",
    "0x1f",
    "٤٢",
    "²",
    "①",
    "1,5",
    "12.345678901234567890",
    "32768",
    "2147483648",
    "9223372036854775808",
    "9" * 40,
    "9" * 400,
    "9" * 5000,
    "0.0000000001",
    "0001-01-01",
    "0000-00-00",
    "9999-12-31",
    "10000-01-01",
    "2025-02-30",
    "2025-13-45",
    "1 Jan 0001",
    "31 Dec 9999",
    "31/02/2025",
    "9999-12",
    "0000-01",
    "0000",
    "24:00",
    "23:59:60",
    "99:99",
    "unknown",
    "none",
    "other",
    "__all__",
    "id",
    "null",
    "true",
    "[]",
    "{}",
    "[" * 5000,
    "[" * 100_000,
    '{"a":' * 2000,
    '{"x": 1e999, "y": NaN}',
    '[[1, 2], ["a", null]]',
    "x" * 300,
    "x" * 20_000,
    "00000000-0000-0000-0000-000000000000",
    "ffffffff-ffff-ffff-ffff-ffffffffffff",
)

_JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=6), inner, max_size=4)
    ),
    max_leaves=12,
)
_TYPED = st.one_of(
    st.sampled_from(ODD),
    st.sampled_from(ODD),
    st.text(st.characters(codec=None), max_size=30),
    st.integers().map(str),
    st.integers(-400, 400).map(str),
    st.decimals().map(str),
    st.floats().map(repr),
    st.dates().map(str),
    st.datetimes().map(lambda one: one.isoformat(timespec="minutes")),
    st.times().map(str),
    st.uuids(allow_nil=True).map(str),
    _JSON.map(json.dumps),
)

#: What a form takes more often than not, so that the rest of it is reached.
USUAL: Final = (
    "1",
    "2",
    "5",
    "12",
    "25",
    "25.5",
    "30",
    "yes",
    "no",
    "none",
    "present",
    "2025-05-06",
    "2025-05-20",
    "6 May 2025",
    "2026-11-30",
    "10:30",
    "Mar 2021",
    "2021",
    "555-0142",
    "Some words about it.",
    "Odile Brackwater",
    "",
)


@cache
def stock(number: int, size: int) -> tuple[str, ...]:
    """``size`` typed values; the same number gives the same ones."""
    kept: list[str] = list(ODD)

    @seed(number)
    @settings(
        max_examples=size,
        phases=[Phase.generate],
        database=None,
        derandomize=False,
        deadline=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(_TYPED)
    def keep(value: str) -> None:
        kept.append(value)

    keep()
    return tuple(kept)


def encoded(text: str) -> bytes:
    """As bytes of UTF-8, broken where the text is: half of a pair, or a byte of another charset."""
    try:
        return text.encode("utf-8", "surrogateescape")
    except UnicodeEncodeError:
        return text.encode("utf-8", "surrogatepass")


def some(random: Random, values: Sequence[str]) -> str:
    """One of the stock; the longest rarely, as they take long to draw."""
    value = random.choice(values)
    return value if len(value) < 1000 or random.random() < 0.3 else value[:1000]
