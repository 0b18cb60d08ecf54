"""The form of a notice: what it looks at, what it says, its source."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

from planning.results.plan import Reason

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class NoticeRule(Generic[T]):
    """``title``: when it is shown. ``look`` yields the words, nothing where there is nothing."""

    key: str
    title: str
    sources: tuple[str, ...]
    look: Callable[[T], Iterable[str]]
    at: str = ""


def notices_of(rules: Iterable[NoticeRule[T]], about: T) -> Iterator[Reason]:
    """Every notice that ``rules`` find in ``about``, in their order."""
    for rule in rules:
        for text in rule.look(about):
            yield Reason(text, rule.sources, rule.at)
