"""What would be worse than agreed: the stoma itself, its edge and the skin round it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Final

from planning.facts.derive import Facts
from planning.inputs.findings import Baseline, BaselineKind
from planning.safety.difference import Difference

#: By kind: every respect in which today is not as agreed. A kind without a row is never as known.
DIFFERENCES: Final[Mapping[BaselineKind, Callable[[Facts, Baseline], Iterator[Difference]]]] = (
    MappingProxyType({})
)
