"""Several people's records of the same barriers become one log, and nothing goes missing."""

from __future__ import annotations

from datetime import date, timedelta
from uuid import uuid4

from hypothesis import given
from hypothesis import strategies as st

from clinic.visits.wear_log.merge import PAGE, Claim, Logged, merge
from clinic.visits.wear_log.presenter import cautions_of

DAY = date(2026, 11, 1)


def day(number: int) -> date:
    return DAY + timedelta(days=number - 1)


def claim(
    on: int,
    off: int | None = None,
    reason: str = "planned",
    source: str = PAGE,
    seen: int = 0,
    matter: str = "",
) -> Claim:
    """Days of November; ``seen`` is the day of the visit that found it still on."""
    return Claim(
        on=day(on),
        off=day(off) if off else None,
        reason=reason if off else "",
        source=source,
        row=uuid4(),
        seen_on=day(off or seen or on),
        circumstance=matter,
    )


def said(log: tuple[Logged, ...]) -> list[tuple[int, int | None, str]]:
    return [
        ((b.on - DAY).days + 1, (b.off - DAY).days + 1 if b.off else None, b.reason) for b in log
    ]


def test_exact_repeats_of_two_sources_are_one_barrier() -> None:
    log = merge([claim(1, 4, "leak"), claim(1, 4, "leak", "visit"), claim(4, 7)])
    assert said(log) == [(1, 4, "leak"), (4, 7, "planned")]
    assert [len(b.claims) for b in log] == [2, 1]
    assert not any(b.disputed for b in log)


def test_two_alike_of_one_source_are_two_barriers_of_one_day() -> None:
    twice = [claim(3, 3, "leak"), claim(3, 3, "leak")]
    assert said(merge(twice)) == [(3, 3, "leak")] * 2
    again = merge([*twice, claim(3, 3, "leak", "visit")])
    assert said(again) == [(3, 3, "leak")] * 2
    assert not any(b.disputed for b in again)


def leak(source: str = PAGE, matter: str = "") -> Claim:
    return claim(1, 4, "leak", source, matter=matter)


def test_what_else_was_the_matter_is_known_where_one_source_says_it() -> None:
    for claims in ([leak(matter="soaked"), leak("visit")], [leak(), leak("visit", "soaked")]):
        (barrier,) = merge(claims)
        assert barrier.circumstance == "soaked"


def test_of_two_things_said_to_be_the_matter_neither_is_taken_and_nothing_goes_missing() -> None:
    (barrier,) = merge([leak(matter="soaked"), leak("visit", "overfull")])
    assert barrier.circumstance == ""
    assert set(barrier.circumstances) == {"soaked", "overfull"}
    assert not barrier.disputed
    (caution,) = cautions_of((barrier,))
    assert "soaked" in caution.text
    assert "pouch too full" in caution.text
    assert "neither counts" in caution.text


def test_of_two_alike_the_one_of_the_same_circumstance_is_meant() -> None:
    claims = [leak("visit", "overfull"), leak("visit", "soaked"), leak(matter="soaked"), leak()]
    log = merge(claims)
    assert sorted(b.circumstance for b in log) == ["overfull", "soaked"]


def test_later_knowledge_closes_what_was_seen_still_on() -> None:
    log = merge([claim(1, None, source="visit", seen=3), claim(1, 5, "leak")])
    assert said(log) == [(1, 5, "leak")]
    assert not log[0].disputed


def test_off_on_the_very_day_it_was_seen_is_no_contradiction() -> None:
    assert len(merge([claim(1, None, source="visit", seen=5), claim(1, 5)])) == 1


def test_seen_still_on_after_it_is_said_to_have_come_off_is_disputed() -> None:
    log = merge([claim(1, None, source="visit", seen=6), claim(1, 5)])
    assert said(log) == [(1, 5, "planned"), (1, None, "")]
    assert all(b.disputed for b in log)


def test_different_reasons_or_days_are_both_kept_and_disputed() -> None:
    for other in (claim(1, 4, "leak", "visit"), claim(2, 5, "leak", "visit"), claim(2, 2, "leak")):
        log = merge([claim(1, 4), other])
        assert len(log) == 2
        assert all(b.disputed for b in log)


def test_the_day_of_a_change_belongs_to_both() -> None:
    log = merge([claim(1, 4), claim(4, 4, "leak", "visit"), claim(4, 6)])
    assert not any(b.disputed for b in log)


def test_a_page_that_knows_both_means_two_barriers() -> None:
    """Off and a new one on within a day: a visit's copy of the first is not the second."""
    log = merge([claim(3, 3, "leak"), claim(3), claim(3, 3, "leak", "visit")])
    assert said(log) == [(3, 3, "leak"), (3, None, "")]


def test_an_open_barrier_before_a_later_one_is_superseded_and_not_closed() -> None:
    log = merge([claim(1, None, source="visit", seen=3), claim(8, 10)])
    assert [(b.off, b.superseded, b.seen_on) for b in log] == [
        (None, True, day(3)),
        (day(10), False, day(10)),
    ]
    assert merge([claim(1)])[0].superseded is False


def test_still_on_at_two_visits_is_one_barrier() -> None:
    log = merge([claim(1, source="a", seen=3), claim(1, source="b", seen=7)])
    assert [(b.seen_on, len(b.claims)) for b in log] == [(day(7), 2)]


CLAIMS = st.lists(
    st.builds(
        lambda on, worn, reason, source, seen: claim(
            on, None if worn is None else on + worn, reason, source, on + seen
        ),
        st.integers(1, 20),
        st.none() | st.integers(0, 6),
        st.sampled_from(["planned", "leak"]),
        st.sampled_from([PAGE, "a", "b"]),
        st.integers(0, 6),
    ),
    max_size=12,
)


@given(CLAIMS)
def test_every_row_is_in_the_log_exactly_once(claims: list[Claim]) -> None:
    log = merge(claims)
    assert sorted(row for b in log for row in b.rows) == sorted(c.row for c in claims)
    assert sum(len(b.claims) for b in log) == len(claims)
    assert list(log) == sorted(log, key=lambda b: b.on)


@given(CLAIMS)
def test_no_claim_is_changed_but_an_open_one_closed(claims: list[Claim]) -> None:
    for barrier in merge(claims):
        for one in barrier.claims:
            assert one.on == barrier.on
            assert one.off is None or (one.off, one.reason) == (barrier.off, barrier.reason)
            assert barrier.off is None or one.seen_on <= barrier.off


def share_more_than_a_change(one: Logged, other: Logged) -> bool:
    """Worn at once; one still on that begins on the day of another that lasted counts too."""
    if max(one.on, other.on) < min(one.seen_on, other.seen_on):
        return True
    return any(
        within.on < day.on == day.seen_on < within.seen_on
        or (day.off is None and day.on == within.on < within.seen_on)
        for day, within in ((one, other), (other, one))
    )


@given(CLAIMS)
def test_whatever_overlaps_is_disputed_and_nothing_else(claims: list[Claim]) -> None:
    log = merge(claims)
    for barrier in log:
        others = [other for other in log if other is not barrier]
        assert barrier.disputed == any(share_more_than_a_change(barrier, o) for o in others)


@given(CLAIMS, st.randoms())
def test_the_order_of_the_rows_does_not_matter(claims: list[Claim], chance: object) -> None:
    mixed = list(claims)
    chance.shuffle(mixed)  # type: ignore[attr-defined]
    assert merge(mixed) == merge(claims)
