"""Statements that multiply the rows of a small clinic inside the database itself.

Every copy keeps the shape of its original: ids move by a fixed step, whatever points to a copied
table moves with them, names and dates vary. Triggers and keys are not asked (they would be, row
by row, for an hour); the original rows went through them.
"""

from __future__ import annotations

from collections.abc import Mapping

from tests.benchmarks.scale.tables import Table

#: More than any id of the clinic that is copied.
STEP = 100_000


def copy(
    table: Table, *, copied: set[str], copies: int, changes: Mapping[str, str], step: int = STEP
) -> str:
    """``copies`` more of every first row of ``table``. ``copied``: tables that are copied too.

    ``changes``: column -> SQL for its new value; ``o`` is the old row, ``k`` counts the copies.
    """
    values = [changes.get(name, _moved(table, name, copied, step)) for name in table.columns]
    names = ", ".join(f'"{name}"' for name in table.columns)
    return (
        f'INSERT INTO "{table.name}" ({names}) SELECT {", ".join(values)} '  # noqa: S608
        f'FROM "{table.name}" o CROSS JOIN generate_series(1, {copies}) k '
        f"WHERE {_first(table, copied, step)}"
    )


def _moved(table: Table, column: str, copied: set[str], step: int) -> str:
    if column in table.unique:
        return "gen_random_uuid()"
    if table.keys.get(column) in copied or (column == table.primary and table.counted):
        return f'o."{column}" + k * {step}'
    return f'o."{column}"'


def _first(table: Table, copied: set[str], step: int) -> str:
    if table.counted:
        return f'o."{table.primary}" < {step}'
    column = next(name for name, to in table.keys.items() if to in copied)
    return f'o."{column}" < {step}'


def restart(table: Table) -> str:
    """Let the next row made by the application come after the copies."""
    return (
        f"SELECT setval(pg_get_serial_sequence('\"{table.name}\"', '{table.primary}'), "  # noqa: S608
        f'(SELECT max("{table.primary}") FROM "{table.name}"))'
    )
