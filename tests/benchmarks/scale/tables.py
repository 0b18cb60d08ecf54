"""The record's tables as the database knows them: columns, keys, who points where."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.apps import apps
from django.db import models

APPS = ("patients", "visits", "referrals", "follow_up", "plans")


@dataclass(frozen=True)
class Table:
    """``keys``: column -> table it points to, among the record's own tables. ``moments`` and
    ``days``: columns that hold a point in time, or a date."""

    name: str
    primary: str
    counted: bool
    columns: tuple[str, ...]
    unique: frozenset[str]
    keys: dict[str, str]
    moments: tuple[str, ...]
    days: tuple[str, ...]


def record_tables() -> tuple[Table, ...]:
    """Every table of the record, without the histories, referenced tables first."""
    stored = [m for app in APPS for m in apps.get_app_config(app).get_models()]
    heavy = {model for model in stored if _is_heavy(model)}
    found = [m for m in stored if _is_record(m) and not heavy & {m, *_pointed_to(m)}]
    names = {model._meta.db_table for model in found}
    tables = [_table(model, names) for model in found]
    by_name = {table.name: table for table in tables}
    # A copy's random id cannot be followed: what hangs on a photo stays with the first rows.
    kept = (t for t in tables if all(by_name[to].counted for to in t.keys.values()))
    return tuple(sorted(kept, key=lambda table: _depth(table, by_name)))


def _is_record(model: type[models.Model]) -> bool:
    return not hasattr(model, "pgh_tracked_model")


def _is_heavy(model: type[models.Model]) -> bool:
    """Pictures would fill the disk and change no question that is asked."""
    return any(isinstance(f, models.BinaryField) for f in model._meta.local_fields)


def _pointed_to(model: type[models.Model]) -> set[type[models.Model]]:
    return {f.related_model for f in model._meta.local_fields if isinstance(f, models.ForeignKey)}


def _table(model: type[models.Model], names: set[str]) -> Table:
    stored = [f for f in model._meta.local_concrete_fields if not f.generated]
    keys = {
        _column(f): f.related_model._meta.db_table
        for f in stored
        if isinstance(f, models.ForeignKey) and f.related_model._meta.db_table in names
    }
    primary = model._meta.pk
    assert primary is not None
    return Table(
        name=model._meta.db_table,
        primary=_column(primary),
        counted=not isinstance(primary, models.UUIDField),
        columns=tuple(_column(f) for f in stored),
        unique=frozenset(
            _column(f) for f in stored if isinstance(f, models.UUIDField) and f.unique
        ),
        keys=keys,
        moments=tuple(_column(f) for f in stored if isinstance(f, models.DateTimeField)),
        days=tuple(_column(f) for f in stored if type(f) is models.DateField),
    )


def _column(field: models.Field[Any, Any]) -> str:
    assert field.column is not None
    return field.column


def _depth(table: Table, by_name: dict[str, Table]) -> int:
    above = [by_name[name] for name in table.keys.values() if name != table.name]
    return 1 + max((_depth(other, by_name) for other in above), default=0)
