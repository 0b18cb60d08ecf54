"""Import one module from a changed tree; the file on disk is never touched."""

from __future__ import annotations

import ast
import sys
from collections.abc import Sequence
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, SourceFileLoader
from importlib.util import spec_from_file_location
from pathlib import Path
from types import CodeType, ModuleType


class _Loader(SourceFileLoader):
    def __init__(self, name: str, path: str, tree: ast.Module) -> None:
        super().__init__(name, path)
        self.tree = tree

    def get_code(self, fullname: str) -> CodeType:
        # Compiled here and not by the parent's way, which reads and writes __pycache__.
        return compile(self.tree, self.path, "exec", dont_inherit=True)


class Served(MetaPathFinder):
    """Answers for one module alone."""

    def __init__(self, name: str, path: Path, tree: ast.Module) -> None:
        self.name, self.path, self.tree = name, path, tree

    def find_spec(
        self, fullname: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        if fullname != self.name:
            return None
        inside = [str(self.path.parent)] if self.path.name == "__init__.py" else None
        loader = _Loader(fullname, str(self.path), self.tree)
        return spec_from_file_location(
            fullname, self.path, loader=loader, submodule_search_locations=inside
        )


def serve(name: str, path: Path, tree: ast.Module) -> None:
    """From now on ``import name`` gives ``tree``. RuntimeError where it was imported before."""
    if name in sys.modules:
        raise RuntimeError(f"{name} is already imported, its change would go unseen")
    sys.meta_path.insert(0, Served(name, path, tree))


def module_name(path: Path, root: Path) -> str:
    parts = path.relative_to(root).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
