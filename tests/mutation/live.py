"""Put a mutant into modules that are already imported, in this process."""

from __future__ import annotations

import functools
import gc
import sys
from collections.abc import Iterator
from inspect import CO_OPTIMIZED
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any, Final

from tests.mutation.changed_import import module_name
from tests.mutation.mutants import MODULE, Compiled, Mutant

_Cached: Final = type(functools.lru_cache(lambda: None))
#: Not imported here: a trial from the start needs the planner not yet imported.
_THRESHOLDS: Final = "planning.evidence.thresholds"


class Live:
    """The functions and kept results of ``package``, looked for once."""

    def __init__(self, root: Path, package: str = "planning") -> None:
        self.root = root
        self.functions: dict[tuple[str, CodeType], list[FunctionType]] = {}
        self.cached: list[Any] = []
        #: Asked for before the fork, so that a file is read once.
        self.compiled = functools.cache(Compiled)
        gc.unfreeze()  # what is frozen is not listed
        for found in gc.get_objects():
            # By its own type: ``isinstance`` makes a lazy object become what it stands for.
            kind = type(found)
            if kind is FunctionType:
                code = found.__code__
                self.functions.setdefault((code.co_filename, code), []).append(found)
            elif kind is _Cached and found.__module__.partition(".")[0] == package:
                self.cached.append(found)
        gc.freeze()

    def put(self, mutant: Mutant) -> bool:
        """False where it cannot be done: the change is made while the module is imported."""
        done = self._figures(mutant) if mutant.function == MODULE else self._code(mutant)
        for results in self.cached if done else ():
            results.cache_clear()
        return done

    def _code(self, mutant: Mutant) -> bool:
        file = self.compiled(mutant.path)
        pairs = zip(_outermost(file.before), _outermost(file.after(mutant)), strict=True)
        changed = [(before, after) for before, after in pairs if before != after]
        if len(changed) != 1:
            return False
        old, new = changed[0]
        found = self.functions.get((file.path, old), [])
        if not found or old.co_freevars != new.co_freevars:
            return False
        for function in found:
            function.__code__ = new
        return True

    def _figures(self, mutant: Mutant) -> bool:
        """A threshold is one object for all that read it: it takes the changed value."""
        name = module_name(mutant.path, self.root)
        if name != _THRESHOLDS:
            return False
        live = vars(sys.modules[name])
        changed: dict[str, Any] = {"__name__": name}
        exec(self.compiled(mutant.path).after(mutant), changed)  # noqa: S102 - our own file
        figures = {k: v for k, v in live.items() if isinstance(v, live["Threshold"])}
        moved = [(f, changed[k].value) for k, f in figures.items() if changed[k].value != f.value]
        for figure, value in moved:
            object.__setattr__(figure, "value", value)
        return bool(moved)


def _outermost(code: CodeType) -> Iterator[CodeType]:
    """The outermost functions, also those of classes, in the order of the file."""
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            if inner.co_flags & CO_OPTIMIZED:
                yield inner
            else:
                yield from _outermost(inner)
