"""Reading a diary: what is written comes back, two readings are asked about, no line is lost."""

from __future__ import annotations

from datetime import date, timedelta
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clinic import formatting
from clinic.visits.choices import Circumstance, RemovalReason
from clinic.visits.wear_log.entry.days import NOT_A_DAY, Around, Order, read_day
from clinic.visits.wear_log.entry.pattern import TypedRule, read_rule
from clinic.visits.wear_log.entry.reasons import (
    CIRCUMSTANCE_KEY,
    LETTERS,
    Why,
    read_reason,
    read_why,
    why_words,
)
from clinic.visits.wear_log.entry.rows import (
    Life,
    RowRead,
    Typed,
    check_together,
    read_rows,
    reading,
)
from clinic.visits.wear_log.entry.table import MOST_ROWS, read_table

TODAY = date(2026, 11, 25)  # a Wednesday
AROUND = Around(TODAY)
LIFE = Life(TODAY, surgery=date(2024, 3, 14))
PAST = st.dates(date(2024, 3, 14), TODAY)


def nov(day: int) -> date:
    return date(2026, 11, day)


# --- days ------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("3", nov(3)),
        ("3rd", nov(3)),
        ("30", date(2026, 10, 30)),
        ("3 Nov", nov(3)),
        ("nov 3rd", nov(3)),
        ("3-Nov-26", nov(3)),
        ("Nov 3, 26", nov(3)),
        ("13/11", nov(13)),
        ("11/13", nov(13)),
        ("13.11.", nov(13)),
        ("13.11.26", nov(13)),
        ("2026-11-03", nov(3)),
        ("2026-11-03 08:15:00", nov(3)),
        ("yesterday", nov(24)),
        ("Today", nov(25)),
        ("Mon", nov(23)),
        ("wednesday", nov(25)),
        ("Tue 3 Nov", nov(3)),
        ("2 Dec", date(2025, 12, 2)),
        ("29 feb", date(2024, 2, 29)),
    ],
)
def test_short_days(text: str, day: date) -> None:
    assert read_day(text, AROUND).day == day


@pytest.mark.parametrize("text", ["3.11", "3/11", "3-11", "3/11/26", "03/11/2026"])
def test_two_readings_are_asked_about_unless_it_was_said_what_comes_first(text: str) -> None:
    read = read_day(text, AROUND)
    assert read.day is None
    assert "11 Mar 2026 or 3 Nov 2026" in read.problem
    assert read_day(text, Around(TODAY, Order.DAY)).day == nov(3)
    assert read_day(text, Around(TODAY, Order.MONTH)).day == date(2026, 3, 11)


@pytest.mark.parametrize("text", ["", "0", "32", "sometime", "31 Feb", "+", "1/1/1/1", "3 Nov ish"])
def test_no_day_is_made_up(text: str) -> None:
    assert read_day(text, AROUND) == read_day("?", AROUND)
    assert read_day(text, AROUND).problem == NOT_A_DAY


def test_a_short_day_follows_the_one_before_it() -> None:
    def after(text: str, day: date) -> date | None:
        return read_day(text, Around(TODAY, after=day)).day

    assert after("3", date(2026, 8, 30)) == date(2026, 9, 3)
    assert after("2 Jan", date(2025, 12, 30)) == date(2026, 1, 2)
    assert after("Mon", date(2026, 9, 1)) == date(2026, 9, 7)
    assert after("+3", nov(1)) == nov(4)
    assert after("=", nov(1)) == nov(1)
    # Nothing after it up to today: the last one, to be seen as out of order.
    assert after("24", nov(25)) == nov(24)


def test_a_weekday_may_be_the_same_day_or_next_weeks() -> None:
    ended = read_day("Mon", Around(TODAY, after=nov(2)), ends=True)
    assert "2 Nov 2026 or 9 Nov 2026" in ended.problem
    assert read_day("Mon 3 Nov", AROUND).problem == "3 Nov 2026 is a Tuesday. Which is meant?"


@given(PAST, st.sampled_from(["%d %b %Y", "%b %d, %Y", "%Y-%m-%d", "%a %d %B %Y", "%d-%b-%y"]))
def test_a_full_day_comes_back_whatever_came_before(day: date, form: str) -> None:
    for before in (None, date(2025, 1, 1), TODAY):
        assert read_day(day.strftime(form), Around(TODAY, after=before)).day == day


@given(PAST, st.sampled_from([Order.DAY, Order.MONTH]), st.sampled_from("/.- "))
def test_figures_come_back_once_the_order_is_said(day: date, order: Order, mark: str) -> None:
    parts = [day.day, day.month] if order is Order.DAY else [day.month, day.day]
    text = mark.join(map(str, [*parts, day.year]))
    assert read_day(text, Around(TODAY, order)).day == day
    unsaid = read_day(text, AROUND)
    assert (unsaid.day == day) == (day.day > 12 or day.day == day.month)


@given(st.integers(0, 27), PAST)
def test_a_bare_day_of_the_weeks_after_is_that_day(days: int, before: date) -> None:
    day = min(before + timedelta(days=days), TODAY)
    assert read_day(str(day.day), Around(TODAY, after=before)).day == day


@given(st.text(max_size=20), st.none() | PAST)
def test_any_text_is_a_day_or_a_problem_in_words(text: str, before: date | None) -> None:
    for ends in (False, True):
        read = read_day(text, Around(TODAY, after=before), ends=ends)
        assert (read.day is None) == bool(read.problem)


# --- reasons ---------------------------------------------------------------------------------
def test_reasons() -> None:
    assert set(LETTERS.values()) == set(RemovalReason)
    for reason in RemovalReason:
        for text in (reason.value, reason.label, str(reason.label).upper()):
            assert read_reason(text) is reason
    assert read_reason("pain") is RemovalReason.ITCH_OR_PAIN
    assert read_reason("unknown") is None


@pytest.mark.parametrize("circumstance", list(Circumstance))
def test_what_else_was_the_matter_is_read_after_the_reason(circumstance: Circumstance) -> None:
    for words in (circumstance.value, circumstance.label):
        for text in (f"l {words}", f"Leaked, {words}", f"leak ({words})", f"L: {words}!"):
            assert read_why(text) == Why(RemovalReason.LEAK, circumstance), text
    for reason in RemovalReason:
        assert read_why(why_words(reason, circumstance)) == Why(reason, circumstance)
    alone = read_why(circumstance.label)
    assert alone == Why(None, circumstance), "a circumstance is no reason: it is asked for"


def test_every_word_offered_for_a_circumstance_is_one() -> None:
    offered = [read_why(f"l {word}").circumstance for word in CIRCUMSTANCE_KEY.split(", ")]
    assert offered == list(Circumstance)
    assert read_why("leak rain").unread
    assert read_why("rain").unread


def test_a_circumstance_alone_asks_for_the_reason() -> None:
    (row,) = read(("28 oct", "31", "too full"))
    assert "Write the reason first" in row.problems["why"][0]
    assert not row.good
    (row,) = read(("28 oct", "31", "f, pulled off"))
    assert (row.reason, row.circumstance) == ("fell_off", "pulled_off")
    assert reading(row)["why"] == "Fell off: pulled off"


# --- rows ------------------------------------------------------------------------------------
def key(number: int) -> str:
    return str(UUID(int=number))


def typed(*rows: tuple[str, str, str]) -> list[Typed]:
    return [Typed(key(n), *row) for n, row in enumerate(rows, start=1)]


def read(*rows: tuple[str, str, str]) -> list[RowRead]:
    found = read_rows(typed(*rows), LIFE)
    check_together(found, ())
    return found


def test_a_diary_reads_on_from_row_to_row() -> None:
    rows = read(("28 oct", "31", "p"), ("=", "3", "l"), ("=", "+4", "f"), ("=", "o", ""))
    assert [(r.on, r.off, r.reason) for r in rows] == [
        (date(2026, 10, 28), date(2026, 10, 31), "planned"),
        (date(2026, 10, 31), nov(3), "leak"),
        (nov(3), nov(7), "fell_off"),
        (nov(7), None, ""),
    ]
    assert all(r.good for r in rows)
    assert [r.worn for r in rows] == ["3 days", "3 days", "4 days", "still on"]


def test_an_empty_first_day_is_filled_to_be_seen_and_not_stored_unseen() -> None:
    rows = read(("1 nov", "4", "p"), ("", "7", "p"))
    assert (rows[1].on, rows[1].filled, rows[1].typed.on) == (nov(4), True, "4 Nov 2026")


def test_what_the_page_filled_in_alone_is_no_entry() -> None:
    row = Typed(key(1), on="4 Nov 2026", given="4 Nov 2026")
    assert row.blank
    assert not read_rows([row], LIFE)[0].good
    assert not Typed(key(1), on="4 Nov 2026", off="o", given="4 Nov 2026").blank
    assert not Typed(key(1), on="4 Nov 2026").blank


@pytest.mark.parametrize(
    ("row", "name", "words"),
    [
        (("", "4 nov", "p"), "on", "When was it put on?"),
        (("4 nov", "3 nov", "p"), "off", "before it was put on"),
        (("4 nov", "5 nov", ""), "why", "Why did it come off?"),
        (("4 nov", "", "l"), "off", "When did it come off?"),
        (("4 nov", "5 nov", "rain"), "why", "Write one of"),
        (("4 nov 2027", "", ""), "on", "in the future"),
        (("13 mar 2024", "1 nov", "p"), "on", "The stoma was made on 14 Mar 2024"),
    ],
)
def test_what_is_wrong_is_said_at_its_field(
    row: tuple[str, str, str], name: str, words: str
) -> None:
    problems = read(row)[0].problems
    assert words in problems[name][0]


def test_a_closed_stoma_takes_nothing_after_its_closing() -> None:
    closed = Life(TODAY, closed=nov(10))
    rows = read_rows(
        typed(("11 nov", "12 nov", "p"), ("8 nov", "11 nov", "p"), ("9 nov", "", "")), closed
    )
    assert ["on" in r.problems or "off" in r.problems for r in rows] == [True] * 3
    assert not read_rows(typed(("8 nov", "10 nov", "p")), closed)[0].problems


def test_overlaps_are_errors_and_changes_are_not() -> None:
    rows = read(("1 nov", "5 nov", "p"), ("4 nov", "7 nov", "p"), ("7 nov", "7 nov", "l"))
    assert [r.good for r in rows] == [True, False, True]
    assert rows[1].problems["on"] == [
        "This overlaps the barrier worn from 1 Nov 2026 to 5 Nov 2026."
    ]
    within = read(("1 nov", "5 nov", "p"), ("3 nov", "3 nov", "l"))
    assert "on" in within[1].problems
    left_open = read(("1 nov", "", ""), ("4 nov", "7 nov", "p"))
    assert "when did this one come off?" in left_open[0].problems["off"][0]


def test_overlaps_with_what_is_stored() -> None:
    rows = read_rows(typed(("4 nov", "7 nov", "p")), LIFE)
    check_together(rows, [(nov(1), None)])
    assert "Write there first when it came off." in rows[0].problems["on"][0]
    rows = read_rows(typed(("4 nov", "7 nov", "p")), LIFE)
    check_together(rows, [(nov(6), nov(9))])
    assert rows[0].problems["on"] == ["This overlaps one already in the log."]


@given(
    st.lists(
        st.tuples(st.integers(0, 30), st.none() | st.integers(0, 9), st.sampled_from("pl")),
        max_size=8,
    )
)
def test_an_error_is_said_exactly_where_two_overlap(
    spans: list[tuple[int, int | None, str]],
) -> None:
    begin = date(2026, 9, 1)
    days = [
        (begin + timedelta(days=on), None if n is None else begin + timedelta(days=on + n), why)
        for on, n, why in spans
    ]
    rows = read(
        *(
            (formatting.day(on), formatting.day(off) if off else "", why if off else "")
            for on, off, why in days
        )
    )

    def clash(one: tuple[date, date | None, str], other: tuple[date, date | None, str]) -> bool:
        first, second = sorted((one, other), key=lambda d: (d[0], d[1] or date.max))
        return second[0] < first[1] if first[1] else True

    overlaps = any(clash(one, other) for n, one in enumerate(days) for other in days[n + 1 :])
    assert any(row.problems for row in rows) == overlaps


# --- tables ----------------------------------------------------------------------------------
LOG = st.lists(
    st.tuples(st.integers(0, 6), st.sampled_from(sorted(LETTERS))), min_size=1, max_size=30
)


@given(
    LOG,
    st.sampled_from("\t;,"),
    st.sampled_from(["%Y-%m-%d", "%d %b %Y", "%d.%m.%Y", "%d/%m/%y"]),
    st.booleans(),
    st.booleans(),
)
def test_a_pasted_diary_comes_back(
    worn: list[tuple[int, str]], mark: str, form: str, heading: bool, backwards: bool
) -> None:
    on = date(2026, 4, 13)
    expected, lines = [], []
    for days, letter in worn:
        off = on + timedelta(days=days)
        expected.append((on, off, LETTERS[letter].value))
        lines.append(mark.join([on.strftime(form), off.strftime(form), LETTERS[letter].label]))
        on = off
    if backwards and expected[0][1] < expected[-1][1]:
        lines.reverse()
    if heading:
        lines.insert(0, mark.join(["Put on", "Came off", "Why"]))
    around = Around(TODAY, Order.DAY)
    pasted = read_table("\n".join(lines), around)
    rows = read_rows(pasted.rows, LIFE, Order.DAY)
    assert [(r.on, r.off, r.reason) for r in rows] == expected
    assert bool(pasted.heading) == heading


@given(st.lists(st.text(max_size=40), max_size=12))
def test_no_line_is_ever_lost(lines: list[str]) -> None:
    text = "\n".join(lines)
    written = [line for line in text.splitlines() if line.strip()]
    pasted = read_table(text, AROUND)
    assert len(pasted.rows) + bool(pasted.heading) == len(written)
    shown = " ".join(f"{r.on} {r.off} {r.why}" for r in pasted.rows) + pasted.heading
    for line in written:
        for word in line.replace('"', " ").split():
            for piece in word.replace("\t", " ").replace(";", " ").replace(",", " ").split():
                assert piece in shown


def test_lines_beyond_one_page_stay_in_the_box() -> None:
    day = date(2026, 1, 1)
    lines = [f"{formatting.day(day + timedelta(days=n))}\tplanned" for n in range(MOST_ROWS + 5)]
    pasted = read_table("\n".join(lines), AROUND)
    assert len(pasted.rows) == MOST_ROWS
    assert pasted.rest.splitlines() == lines[MOST_ROWS:]


def test_two_columns_are_on_and_off_or_off_and_why() -> None:
    changes = read_table("3 Nov 2026,leak\n6 Nov 2026,planned", AROUND)
    assert [(r.on, r.off, r.why) for r in changes.rows] == [
        ("", "3 Nov 2026", "leak"),
        ("", "6 Nov 2026", "planned"),
    ]
    read_back = read_rows(changes.rows, LIFE)
    assert read_back[0].problems["on"] == ["When was it put on?"]
    assert (read_back[1].on, read_back[1].filled) == (nov(3), True)
    spans = read_table("1 Nov 2026;3 Nov 2026\n3 Nov 2026;still on", AROUND)
    assert [(r.on, r.off) for r in spans.rows][1] == ("3 Nov 2026", "still on")


def test_headings_in_another_order_and_cells_too_many() -> None:
    pasted = read_table("Reason;Removed;Applied\nleak;4 Nov;1 Nov;look here", AROUND)
    row = pasted.rows[0]
    assert (row.on, row.off, row.why) == ("1 Nov", "4 Nov", "leak look here")
    assert "why" in read_rows(pasted.rows, LIFE)[0].problems


# --- every so many days ----------------------------------------------------------------------
def test_every_three_days_with_a_leak() -> None:
    read = read_rule(TypedRule("3", "1 Nov", "", "p", "9 Nov leaked"), AROUND)
    rows = read_rows(read.rows, LIFE)
    assert [(r.on.day, r.off and r.off.day, r.reason) for r in rows if r.on] == [
        (1, 4, "planned"),
        (4, 7, "planned"),
        (7, 9, "leak"),
        (9, 12, "planned"),
        (12, 15, "planned"),
        (15, 18, "planned"),
        (18, 21, "planned"),
        (21, 24, "planned"),
        (24, None, ""),
    ]


def test_an_exception_on_the_day_it_was_due_is_why_it_came_off() -> None:
    rows = read_rows(read_rule(TypedRule("3", "1 Nov", "7 Nov", "p", "4 Nov l"), AROUND).rows, LIFE)
    assert [(r.off, r.reason) for r in rows] == [(nov(4), "leak"), (nov(7), "planned")]


def test_until_ends_the_rows_and_says_nothing_of_what_came_then() -> None:
    rows = read_rows(read_rule(TypedRule("3", "1 Nov", "9 Nov"), AROUND).rows, LIFE)
    assert [(r.on, r.off) for r in rows] == [(nov(1), nov(4)), (nov(4), nov(7))]


@pytest.mark.parametrize(
    ("rule", "name"),
    [
        (TypedRule("", "1 Nov"), "every"),
        (TypedRule("0", "1 Nov"), "every"),
        (TypedRule("3", ""), "since"),
        (TypedRule("3", "3/11"), "since"),
        (TypedRule("3", "5 Nov", "1 Nov"), "until"),
        (TypedRule("1", "1 Jan 2025"), "until"),
        (TypedRule("3", "20 Nov", "21 Nov"), "until"),
        (TypedRule("3", "1 Nov", "", "x"), "why"),
        (TypedRule("3", "1 Nov", "", "p", "10 Nov"), "exceptions"),
        (TypedRule("3", "1 Nov", "", "p", "30 Oct 2026 l"), "exceptions"),
    ],
)
def test_a_rule_that_cannot_be_read_says_where(rule: TypedRule, name: str) -> None:
    read = read_rule(rule, AROUND)
    assert list(read.problems) == [name]
    assert read.rows == ()


@given(
    st.integers(1, 9),
    st.integers(0, 60),
    st.lists(st.tuples(st.integers(0, 60), st.sampled_from("lif")), max_size=6),
)
def test_every_exception_is_in_the_rows_and_none_is_worn_longer(
    every: int, since: int, exceptions: list[tuple[int, str]]
) -> None:
    begin = TODAY - timedelta(days=since)
    kept = [(begin + timedelta(days=n), why) for n, why in exceptions if n <= since]
    text = "\n".join(f"{formatting.day(day)} {why}" for day, why in kept)
    rows = read_rows(
        read_rule(TypedRule(str(every), formatting.day(begin), "", "p", text), AROUND).rows, LIFE
    )
    check_together(rows, ())
    assert not any(row.problems for row in rows)
    ended = [(r.off, r.reason) for r in rows if r.reason != "planned" and r.off]
    assert sorted(ended) == sorted((day, LETTERS[why].value) for day, why in kept)
    assert all((row.off - row.on).days <= every for row in rows if row.on and row.off)
