"""The grid of the log page: rows as typed, read from the top and held against the log."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from uuid import UUID, uuid4

from django.http import QueryDict

from clinic import formatting
from clinic.patients.models import Stoma
from clinic.visits.models import WornBarrier
from clinic.visits.wear_log.actions import said
from clinic.visits.wear_log.entry.days import Around, Order
from clinic.visits.wear_log.entry.pattern import RuleRead, TypedRule, read_rule
from clinic.visits.wear_log.entry.reasons import why_words
from clinic.visits.wear_log.entry.rows import Life, RowRead, Typed, check_together, read_rows
from clinic.visits.wear_log.entry.table import MOST_ROWS, Pasted, read_table
from clinic.visits.wear_log.merge import PAGE, Claim, Logged, merge
from clinic.visits.wear_log.whole_log import of_page, page_rows, visit_claims

#: Empty rows offered where the page works without scripts, which show fewer.
SPARE_ROWS = 30


@dataclass(frozen=True)
class Known:
    """What is stored: rows of the log page, and what the stoma's visits say."""

    page: tuple[WornBarrier, ...]
    visits: tuple[Claim, ...]

    @classmethod
    def of(cls, stoma: Stoma) -> Known:
        """Two queries."""
        return cls(page_rows(stoma.pk), visit_claims(stoma.pk))

    def log(self) -> tuple[Logged, ...]:
        """The log as stored."""
        return merge([*map(of_page, self.page), *self.visits])


@dataclass
class Grid:
    """``removed``: keys of stored rows to be taken out; they are not read."""

    stoma: Stoma
    known: Known
    life: Life
    typed: tuple[Typed, ...]
    order: Order = Order.ASK
    removed: frozenset[str] = frozenset()
    paste: str = ""
    rule: TypedRule = field(default_factory=TypedRule)

    def __post_init__(self) -> None:
        self.pasted = Pasted()
        self.rule_read = RuleRead()
        self.read()

    # --- reading ---------------------------------------------------------------------------
    def read(self) -> None:
        """Read every row, and hold what can be read against the rest of the page's log."""
        kept = [one for one in self.typed if one.key not in self.removed]
        self.rows: list[RowRead] = read_rows(kept, self.life, self.order, self._before())
        keys = {one.key for one in self.typed}
        others = [(row.on, row.off) for row in self.known.page if str(row.pk) not in keys]
        check_together(self.rows, others)
        for row in self.rows:
            if row.typed.blank and row.typed.key in self._stored:
                row.problem("on", "To take this barrier out of the log, tick Remove.")

    @property
    def _stored(self) -> dict[str, WornBarrier]:
        return {str(row.pk): row for row in self.known.page}

    def _before(self) -> date | None:
        """The day the first row follows: the last one known, unless stored rows begin the grid."""
        if any(one.key in self._stored and not one.blank for one in self.typed):
            return None
        return last_day(self.known)

    @property
    def around(self) -> Around:
        return Around(self.life.today, self.order)

    def read_paste(self) -> None:
        """Put the pasted lines into the grid; what did not fit stays in the box."""
        self.pasted = read_table(self.paste, self.around, room=self.room)
        self.paste = self.pasted.rest
        self._add(self.pasted.rows)

    def read_rule(self) -> None:
        """Put the rows of the rule into the grid, if it could be read."""
        self.rule_read = read_rule(self.rule, self.around)
        if len(self.rule_read.rows) > self.room:
            full = f"One page takes {MOST_ROWS} rows: save these first, or choose a shorter time."
            self.rule_read.problem("until", full)
        if not self.rule_read.problems:
            self.rule = TypedRule()
            self._add(self.rule_read.rows)

    def _add(self, rows: Iterable[Typed]) -> None:
        self.typed = (*self._filled, *rows)
        self.read()

    @property
    def _filled(self) -> list[Typed]:
        return [one for one in self.typed if not one.blank or one.key in self._stored]

    @property
    def room(self) -> int:
        """How many more rows this page takes."""
        return max(0, MOST_ROWS - len(self._filled))

    # --- what became of it ------------------------------------------------------------------
    @property
    def good(self) -> bool:
        """Nothing is wrong, and nothing was filled in that no one has looked at."""
        return not any(row.problems or row.filled for row in self.rows)

    @property
    def to_store(self) -> list[RowRead]:
        return [row for row in self.rows if row.good]

    @property
    def uncounted(self) -> list[RowRead]:
        """Rows that a save leaves out: the page filled in the day, no one typed anything."""
        return [row for row in self.rows if row.uncounted and row.typed.key not in self._stored]

    @property
    def changes(self) -> int:
        """How many rows a save would write or take out."""
        return len(self.removed) + sum(
            stored is None or said(stored) != said(r)
            for r in self.to_store
            for stored in [self._stored.get(r.typed.key)]
        )

    def log(self) -> tuple[Logged, ...]:
        """The log as it would be with the readable rows of the grid."""
        keys = {one.key for one in self.typed}
        page = [of_page(row) for row in self.known.page if str(row.pk) not in keys]
        new = [
            _claim(UUID(row.typed.key), row.on, row.off, row.reason, row.circumstance)
            for row in self.to_store
            if row.on
        ]
        return merge([*page, *new, *self.known.visits])

    def shown(self, spare: int = 0) -> list[tuple[RowRead, bool]]:
        """Rows for the page, each with whether it is stored; ``spare`` empty ones after them."""
        rows = [row for row in self.rows if self._is_shown(row)]
        empty = [RowRead(Typed(str(uuid4()))) for _ in range(spare)]
        if not rows and empty and (text := first_day(self.known)):
            empty[0] = RowRead(Typed(empty[0].typed.key, on=text, given=text), uncounted=text)
        return [(row, row.typed.key in self._stored) for row in [*rows, *empty]]

    def _is_shown(self, row: RowRead) -> bool:
        return not row.typed.blank or bool(row.uncounted) or row.typed.key in self._stored


def _claim(row: UUID, on: date, off: date | None, reason: str, circumstance: str) -> Claim:
    return Claim(on, off, reason, PAGE, row, off or on, circumstance=circumstance)


def posted(stoma: Stoma, known: Known, life: Life, data: QueryDict) -> Grid:
    """The grid as posted. A row id that belongs to another stoma gets one of its own."""
    keys = list(dict.fromkeys(key for key in data.getlist("row") if _is_uuid(key)))
    elsewhere = {
        str(pk)
        for pk in WornBarrier.objects.filter(pk__in=keys)
        .exclude(stoma=stoma)
        .values_list("pk", flat=True)
    }
    typed = [_typed(key, data) for key in keys]
    typed = [replace(one, key=str(uuid4())) if one.key in elsewhere else one for one in typed]
    order = data.get("order", "")
    return Grid(
        stoma,
        known,
        life,
        tuple(typed),
        order=Order(order) if order in set(Order) else Order.ASK,
        removed=frozenset(data.getlist("remove")) & {one.key for one in typed},
        paste=data.get("paste", "")[:100_000],
        rule=TypedRule(
            **{
                name: data.get(f"rule-{name}", "")[:2000]
                for name in ("every", "since", "until", "why", "exceptions")
            }
        ),
    )


def _typed(key: str, data: QueryDict) -> Typed:
    # A line that could not be split may be long; beyond this it is no diary's.
    on, off, why, given = (data.get(f"{n}-{key}", "")[:1000] for n in ("on", "off", "why", "given"))
    return Typed(key, on, off, why, given)


def of_stored(rows: Sequence[WornBarrier]) -> tuple[Typed, ...]:
    """Stored rows as they would be typed."""
    return tuple(
        Typed(
            key=str(row.pk),
            on=formatting.day(row.on),
            off=formatting.day(row.off) if row.off else "",
            why=why_words(row.reason, row.circumstance),
        )
        for row in rows
    )


def last_day(known: Known) -> date | None:
    """The last day the log says anything about."""
    return max((day for on, off in _spans(known) for day in (on, off) if day), default=None)


def first_day(known: Known) -> str:
    """What the first empty row begins with: where the log ends."""
    log = known.log()
    if not log:
        return ""
    return formatting.day(log[-1].off or log[-1].on)


def _spans(known: Known) -> Iterable[tuple[date, date | None]]:
    yield from ((row.on, row.off) for row in known.page)
    yield from ((claim.on, claim.off) for claim in known.visits)


def _is_uuid(text: str) -> bool:
    try:
        return str(UUID(text)) == text
    except ValueError:
        return False
