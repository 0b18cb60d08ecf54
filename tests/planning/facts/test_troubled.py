"""Whether effluent may be doing harm: a barrier that was not read is not an intact one."""

from __future__ import annotations

from typing import Any

import pytest

from planning.facts.derive import derive
from planning.inputs.findings import History, SkinKind
from tests.planning.builders import INTACT, LOW, seen, well

BURNT = [SkinKind.ERYTHEMA, SkinKind.EROSION, SkinKind.MACERATION, SkinKind.WARTY]
UNREAD: list[dict[str, Any]] = [
    {"erosion": None, "leak": None},
    {"erosion": INTACT, "leak": None},
    {"erosion": None, "leak": INTACT},
    {"system": None},
]


def troubled(**changes: Any) -> bool:
    return derive(well(**changes), History()).troubled


@pytest.mark.parametrize("unread", UNREAD)
@pytest.mark.parametrize("kind", BURNT)
def test_burnt_skin_counts_as_trouble_where_the_barrier_was_not_read(
    kind: SkinKind, unread: dict[str, Any]
) -> None:
    """Half a reading is none: both melting and leak must have been looked for."""
    assert troubled(skin=(seen(kind),), **unread) is True


@pytest.mark.parametrize("kind", BURNT)
def test_burnt_skin_under_a_barrier_read_as_intact_is_not_blamed_on_effluent(
    kind: SkinKind,
) -> None:
    assert troubled(skin=(seen(kind),)) is False


@pytest.mark.parametrize("skin", [None, (), (seen(SkinKind.STRIPPING),), (seen(SkinKind.SCALE),)])
@pytest.mark.parametrize("unread", UNREAD)
def test_an_unread_barrier_alone_is_no_trouble(skin: Any, unread: dict[str, Any]) -> None:
    assert troubled(skin=skin, **unread) is False


@pytest.mark.parametrize("read", [{"leak": LOW}, {"erosion": LOW}, {"leak": LOW, "erosion": None}])
def test_a_barrier_that_melted_or_leaked_is_trouble_over_sound_skin(read: dict[str, Any]) -> None:
    assert troubled(**read) is True
