"""The rows of many assessments, of every kind, in one query: a page asks for a dozen kinds, most of
which have none."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from decimal import Decimal
from functools import cache
from operator import attrgetter
from typing import Any, Self, TypeVar

from django.db import connections
from django.db.models import BinaryField, ForeignKey, JSONField, ManyToOneRel, Model, QuerySet

M = TypeVar("M", bound=Model)


class WithRows(QuerySet[M]):
    """Fetches each object's rows as ``prefetch_related`` would, but all kinds in one query."""

    _relations: tuple[str, ...] = ()

    def with_rows(self, *relations: str) -> Self:
        """And these: names by which rows are reached from an object of this set."""
        found = self.all()
        found._relations += relations
        return found

    def without_rows(self) -> Self:
        """The objects alone."""
        found = self.prefetch_related(None)
        found._relations = ()
        return found

    def _clone(self) -> Self:
        copy = super()._clone()  # type: ignore[misc]  # Django's own, left out of its types
        copy._relations = self._relations
        return copy

    def _fetch_all(self) -> None:
        # Before Django fetches what hangs on the rows.
        if self._result_cache is None and self._relations:
            rows: Any = self  # what follows is Django's own, left out of its types
            self._result_cache = list(rows._iterable_class(self))
            if self._result_cache and isinstance(self._result_cache[0], Model):
                fetch_rows(self._result_cache, self._relations, using=self.db)
        super()._fetch_all()


def fetch_rows(objects: Iterable[M], relations: tuple[str, ...], *, using: str) -> None:
    """Put the rows of every object where ``prefetch_related`` puts them. One query."""
    by_key = {one.pk: one for one in objects}
    model = type(next(iter(by_key.values())))
    kinds = [_Kind(model._meta.get_field(name)) for name in relations]
    found: dict[tuple[int, Any], list[Model]] = {}
    with connections[using].cursor() as cursor:
        cursor.execute(_statement(model, relations, using), [list(by_key)] * len(kinds))
        for place, key, text in cursor.fetchall():
            found.setdefault((place, key), []).append(kinds[place].row(text, using))
    for place, kind in enumerate(kinds):
        for key, one in by_key.items():
            kind.hang(found.get((place, key), []), one)


class _Kind:
    """The rows of one table, and how one of them is read."""

    def __init__(self, relation: Any) -> None:
        if not isinstance(relation, ManyToOneRel):
            raise TypeError(f"{relation} leads to no rows")
        self.model: type[Model] = relation.related_model
        self.accessor = relation.get_accessor_name()
        self.cache_name = relation.cache_name
        self.key: ForeignKey[Any, Any] = relation.field
        self.order = attrgetter(*map(str, self.model._meta.ordering or ()), "pk")
        if any(isinstance(field, BinaryField) for field in self.model._meta.concrete_fields):
            raise TypeError(f"{relation}: its bytes are fetched by themselves")
        self.fields = [
            (field.attname, field.column, _reader(field))
            for field in self.model._meta.concrete_fields
        ]

    def row(self, text: str, using: str) -> Model:
        # Sizes are decimal numbers: binary ones would not be what was typed.
        columns = json.loads(text, parse_float=Decimal)
        values = [read(columns[column]) for _, column, read in self.fields]
        return self.model.from_db(using, [name for name, _, _ in self.fields], values)

    def hang(self, rows: list[Model], one: Model) -> None:
        for row in rows:
            setattr(row, self.key.name, one)
        found: Any = getattr(one, self.accessor).get_queryset()
        found._result_cache = sorted(rows, key=self.order)
        found._prefetch_done = True
        kept: dict[str, Any] = one.__dict__.setdefault("_prefetched_objects_cache", {})
        kept[self.cache_name] = found


def _reader(field: Any) -> Callable[[Any], Any]:
    """From what JSON holds of a column to what Django would have read."""
    if isinstance(field, JSONField):
        return lambda value: json.loads(json.dumps(value, default=float))
    read: Callable[[Any], Any] = field.to_python
    return read


@cache
def _statement(model: type[Model], relations: tuple[str, ...], using: str) -> str:
    quote = connections[using].ops.quote_name
    parts = []
    for place, name in enumerate(relations):
        kind = _Kind(model._meta.get_field(name))
        table, key = quote(kind.model._meta.db_table), quote(kind.key.column)
        # Only names of our own tables are put in.
        parts.append(
            f"SELECT {place}, t.{key}, to_jsonb(t)::text FROM {table} t "  # noqa: S608
            f"WHERE t.{key} = ANY(%s)"
        )
    return " UNION ALL ".join(parts)
