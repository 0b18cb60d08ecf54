"""The figure: every datum drawn where it belongs, the same bytes every time, nothing that the
content policy forbids."""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path

import pytest
from matplotlib.dates import date2num
from matplotlib.text import Text

from clinic import formatting
from clinic.trends.drawing.style import COLUMN, PANEL, PAPER, SCREEN, SHEET, Medium
from clinic.trends.drawing.svg import tag
from clinic.trends.figure import TrendFigure, _drawn_once, figure
from planning.course.record import Event, EventKind
from planning.course.results import Bar, Point, Series
from planning.inputs.findings import RemovalReason
from tests.browser.test_contrast import COLOURS, ratio
from tests.clinic.trends import made
from tests.clinic.trends.figure_markup import marks, of_track, parsed, screen

MEDIA: dict[str, Callable[[TrendFigure], str]] = {
    "screen": screen,
    "paper": TrendFigure.on_paper,
    "column": lambda drawn: drawn.on_paper(narrow=True),
}
EACH = pytest.mark.parametrize("made_as", MEDIA.values(), ids=MEDIA)


@pytest.fixture(scope="module")
def drawn() -> TrendFigure:
    return figure(made.SERIES, made.EVENTS, today=made.TODAY)


# --- what is drawn --------------------------------------------------------------------------
POINTS = ["protrusion", "length", "width", "burden", "output"]
WHERE = {"length": "size", "width": "size", "burden": "skin"}


@pytest.mark.parametrize("key", POINTS)
def test_every_point_is_where_its_axis_says(drawn: TrendFigure, key: str) -> None:
    points: tuple[Point, ...] = made.SERIES.of(key)
    found = of_track(drawn, key)
    assert [(mark.day, float(mark.value)) for mark in found] == [
        (point.day.isoformat(), point.value) for point in points
    ]
    panel = WHERE.get(key, key)
    sheet = drawn.sheets()[panel]
    to_units = sheet.panels[panel].transData
    for mark, point in zip(found, points, strict=True):
        x, up = to_units.transform((date2num(point.day), point.value))
        assert (mark.x, mark.y) == pytest.approx((x, sheet.height - up), abs=0.001)


def test_time_runs_evenly_to_the_right_and_values_upwards(drawn: TrendFigure) -> None:
    """Without asking the drawing library: four visits 28 days apart, equally far apart."""
    found = of_track(drawn, "burden")
    steps = [b.x - a.x for a, b in pairwise(found)]
    assert steps == pytest.approx([steps[0]] * 3, abs=0.001)
    assert steps[0] > 0
    per_mm2 = [(a.y - b.y) / (float(a.value) - float(b.value)) for a, b in pairwise(found)]
    assert per_mm2 == pytest.approx([per_mm2[0]] * 3, abs=1e-5)
    assert per_mm2[0] < 0


def test_panels_share_one_axis_of_dates(drawn: TrendFigure) -> None:
    first = {key: of_track(drawn, key)[0].x for key in [*POINTS, "faces"]}
    assert max(first.values()) - min(first.values()) < 0.001


def test_a_bar_is_as_wide_as_its_time_and_as_high_as_its_days(drawn: TrendFigure) -> None:
    found = of_track(drawn, "bars")
    assert len(found) == len(made.SERIES.bars)
    day_wide = of_track(drawn, "burden")
    per_day = (day_wide[1].x - day_wide[0].x) / 28
    one = found[0].box[3] - found[0].box[2]
    for mark, bar in zip(found, made.SERIES.bars, strict=True):
        left, right, top, bottom = mark.box
        end = bar.off or made.TODAY
        assert right - left == pytest.approx((end - bar.on).days * per_day, abs=0.01)
        if bar.off:
            assert bottom - top == pytest.approx((bar.off - bar.on).days * one, abs=0.01)


def test_a_barrier_still_on_says_so_and_does_not_flatten_the_others(drawn: TrendFigure) -> None:
    last = of_track(drawn, "bars")[-1]
    assert last.words == "7 Jun 2025: barrier put on, still on after 84 days"
    assert drawn.sheets()["bars"].panels["bars"].get_ylim()[1] < 10


@pytest.mark.parametrize(
    ("off", "seen_on", "words", "days"),
    [
        (None, 2, "last seen on 5 Mar 2025 (2 days)", 2),
        (None, 1, "last seen on 4 Mar 2025 (1 day)", 1),
        (None, 60, "still on after 60 days", 60),
        # A later one was put on: it came off, and no one knows when and why.
        (2, None, "last seen on 5 Mar 2025 (2 days)", 2),
    ],
)
def test_a_barrier_not_seen_again_is_not_shown_as_on(
    off: int | None, seen_on: int | None, words: str, days: int
) -> None:
    bar = Bar(made.day(0), made.day(off) if off else None, None, made.day(seen_on or 0))
    drawn = figure(replace(made.EMPTY, bars=(bar,)), (), today=made.day(60))
    (mark,) = of_track(drawn, "bars")
    assert mark.words == f"3 Mar 2025: barrier put on, {words}"
    assert float(mark.value) == days


def test_two_records_of_the_same_days_are_both_seen() -> None:
    """Put on the same day, they share its width; what goes on longer ends where the next begins."""
    days = ((0, 3), (0, 4), (4, 10), (8, 12))
    bars = tuple(Bar(made.day(on), made.day(off), RemovalReason.PLANNED) for on, off in days)
    drawn = figure(replace(made.EMPTY, bars=bars), (), today=made.day(20))
    boxes = [mark.box for mark in of_track(drawn, "bars")]
    widths = [right - left for left, right, _, _ in boxes]
    assert widths == pytest.approx([widths[2] / 2] * 2 + [widths[2]] * 2, abs=0.01)
    assert all(one[1] <= other[0] + 0.01 for one, other in pairwise(boxes))
    assert [mark.value for mark in of_track(drawn, "bars")] == ["3", "4", "6", "4"]


def test_a_size_from_a_photo_says_its_error() -> None:
    series = made.only(length=(Point(made.day(0), 31.2, 2.75), Point(made.day(9), 31.0)))
    found = of_track(figure(series, (), today=made.day(20)), "length")
    assert [mark.words.partition(": ")[2] for mark in found] == [
        "length 31.2 mm (from a photo, 2.8 mm either way)",
        "length 31 mm",
    ]


def test_words_of_every_kind(drawn: TrendFigure) -> None:
    said = {mark.words for mark in marks(screen(drawn))}
    assert {
        "23 Jun 2025: protrusion 3.5 mm",
        "3 Mar 2025: skin burden 1250 mm²",
        "31 Mar 2025: output 1600 mL/24 h",
        "3 Mar 2025: raw, shallow erosion, maceration (pale, soggy), 4 to 8 o'clock",
        "26 May 2025: skin intact all round",
        "11 Feb 2025: Surgery: end ileostomy made",
        "28 Apr 2025: Referral 1: surgeon, within 2 weeks",
        "7 Mar 2025: barrier worn 2 days, off 9 Mar 2025: leak",
    } <= said


def test_a_face_shows_its_hours_and_intact_skin_none(drawn: TrendFigure) -> None:
    """Wedges are filled as leaks are; one an hour."""
    svg = screen(drawn)
    faces_only = replace(made.SERIES, bars=())
    red = "var(--bad-line)"
    count = screen(figure(faces_only, (), today=made.TODAY)).count(f'fill="{red}"')
    assert count == sum(len(face.hours) for face in made.FACES) == 9
    assert red in svg


def test_faces_of_neighbouring_days_do_not_lie_on_one_another() -> None:
    close = tuple(replace(made.FACES[0], day=made.day(n * 2)) for n in range(3))
    series = replace(made.SERIES, faces=close)
    found = of_track(figure(series, (), today=made.TODAY), "faces")
    apart = [abs(a.x - b.x) + abs(a.y - b.y) for a in found for b in found if a.number < b.number]
    assert min(apart) > 20


# --- left out, and said ---------------------------------------------------------------------
def test_panels_without_data_are_left_out_and_named() -> None:
    series = made.only(protrusion=made.points(12, 11))
    drawn = figure(series, (), today=made.TODAY)
    spots = ("mucocutaneous separation", "bulge beside the stoma")
    assert drawn.left_out == (
        "length and width",
        "skin",
        *spots,
        "barriers worn",
        "output",
        "weight",
    )
    assert set(drawn.sheets()) == {"protrusion"}


def test_what_was_looked_for_and_never_found_has_no_panel_and_was_recorded() -> None:
    drawn = figure(replace(made.SERIES, separation=made.NEVER), (), today=made.TODAY)
    assert "separation" not in drawn.sheets()
    assert drawn.left_out == ("bulge beside the stoma", "weight")


def test_separation_and_bulge_at_every_visit_the_unknown_as_unknown() -> None:
    drawn = figure(made.SPOTTED, (), today=made.TODAY)
    assert [mark.words for mark in of_track(drawn, "separation")] == [
        "3 Mar 2025: separation: at 6 to 7 o'clock, 4 mm deep",
        "31 Mar 2025: separation: hours not recorded, 2.5 mm deep",
        "28 Apr 2025: separation: not recorded",
        "26 May 2025: separation: none",
    ]
    bulge = of_track(drawn, "bulge")
    assert [mark.words for mark in bulge][2:] == [
        "28 Apr 2025: bulge: none",
        "26 May 2025: bulge: all round, 20 mm high, 80 mm wide",
    ]
    over = of_track(drawn, "faces")
    assert [mark.x for mark in bulge] == pytest.approx([mark.x for mark in over], abs=0.01)
    assert drawn.left_out == ("weight",)


def test_an_unknown_visit_looks_unlike_one_that_found_none() -> None:
    """Dotted with a question mark, and no wedge; of what has no hours the circle is whole."""
    one, other = (
        screen(
            figure(replace(made.EMPTY, separation=(made.SEPARATION[0], seen)), (), today=made.TODAY)
        )
        for seen in (made.SEPARATION[2], made.SEPARATION[3])
    )
    assert (one.count(">?<"), other.count(">?<")) == (1, 0)
    assert (one.count("stroke-dasharray"), other.count("stroke-dasharray")) == (1, 0)
    red = "var(--bad-line)"
    assert one.count(f'fill="{red}"') == other.count(f'fill="{red}"') == 2


def test_nothing_to_draw() -> None:
    drawn = figure(made.EMPTY, made.EVENTS, today=made.TODAY)
    assert drawn.is_empty
    with pytest.raises(ValueError, match="nothing to draw"):
        drawn.on_screen()
    with pytest.raises(ValueError, match="nothing to draw"):
        drawn.on_paper()


def test_a_value_of_zero_is_drawn_and_an_unknown_one_is_not() -> None:
    series = made.only(burden=(Point(made.day(0), 0.0),))
    assert [m.words for m in of_track(figure(series, (), today=made.TODAY), "burden")] == [
        "3 Mar 2025: skin burden 0 mm²"
    ]


def test_a_surgery_long_ago_does_not_press_the_visits_together() -> None:
    old = Event(made.START - timedelta(days=4000), EventKind.SURGERY, "end ileostomy made")
    drawn = figure(made.SERIES, (old,), today=made.TODAY)
    assert [mark.name for mark in drawn.off_axis] == ["Surgery"]
    assert drawn.span.first > made.START - timedelta(days=30)
    assert not [mark for mark in marks(screen(drawn)) if mark.track == "events"]


def test_one_visit_alone_can_be_drawn() -> None:
    series = made.only(length=made.points(34), width=made.points(30))
    for made_as in MEDIA.values():
        assert parsed(made_as(figure(series, (), today=made.START))) is not None


# --- events ---------------------------------------------------------------------------------
def test_every_event_is_a_line_with_a_label(drawn: TrendFigure) -> None:
    for one in drawn.on_screen():
        texts = ["".join(text.itertext()) for text in parsed(one.svg).iter(tag("text"))]
        for label in ("S", "P1", "R1", "A1", "P2"):
            assert texts.count(label) == 1, (one.key, label)
    paper = ["".join(text.itertext()) for text in parsed(drawn.on_paper()).iter(tag("text"))]
    for label in ("Surgery", "Plan 1", "Referral 1", "Answer 1", "Plan 2"):
        assert paper.count(label) == 1, label
    assert [mark.day for mark in of_track(drawn, "events")] == [
        event.day.isoformat() for event in made.EVENTS
    ]


def test_crowded_events_share_marks_and_all_are_said() -> None:
    many = tuple(Event(made.day(n), EventKind.PLAN_CHANGE, f"change {n}") for n in range(0, 60, 2))
    drawn = figure(made.SERIES, many, today=made.TODAY)
    said = "; ".join(mark.words for mark in of_track(drawn, "events"))
    assert re.findall(r": change (\d+)", said) == [str(n) for n in range(0, 60, 2)]
    for event in many:
        assert formatting.day(event.day) in said


def test_events_of_one_day_are_one_mark() -> None:
    asked = Event(made.day(28), EventKind.REFERRAL, "surgeon")
    (mark,) = of_track(figure(made.SERIES, (made.EVENTS[1], asked), today=made.TODAY), "events")
    assert mark.words == "31 Mar 2025: Plan 1: convex barrier, ring; Referral 1: surgeon"


def test_in_the_other_panels_an_event_has_its_name_for_a_pointer_alone(drawn: TrendFigure) -> None:
    first, *others = (parsed(one.svg) for one in drawn.on_screen())
    assert not [g for g in first.iter(tag("g")) if g.get("class") == "trend-echo"]
    for panel in others:
        found = [g for g in panel.iter(tag("g")) if g.get("class") == "trend-echo"]
        assert [g.findtext(tag("title")) for g in found][1] == "Plan 1, 31 Mar 2025"
        assert {g.get("aria-hidden") for g in found} == {"true"}


def test_on_paper_the_events_are_written_out(drawn: TrendFigure) -> None:
    paper = parsed(drawn.on_paper())
    said = " ".join("".join(text.itertext()) for text in paper.iter(tag("text")))
    for event in made.EVENTS:
        assert event.text in said


@pytest.mark.parametrize("typed", ["a ring of $5 instead of $9", r"$\ring$", "5 < 6 & <b>"])
def test_whatever_was_typed_is_on_paper_as_typed(typed: str) -> None:
    event = Event(made.day(0), EventKind.PLAN_CHANGE, typed)
    paper = parsed(figure(made.SERIES, (event,), today=made.TODAY).on_paper())
    said = " ".join("".join(text.itertext()) for text in paper.iter(tag("text")))
    assert typed in said


def test_a_stray_control_character_keeps_no_letter_from_printing() -> None:
    event = Event(made.day(0), EventKind.PLAN_CHANGE, "a soft\x02 ring")
    paper = parsed(figure(made.SERIES, (event,), today=made.TODAY).on_paper())
    assert "a soft ring" in " ".join("".join(t.itertext()) for t in paper.iter(tag("text")))


def test_a_referral_without_an_answer_says_so() -> None:
    waiting = Event(made.day(0), EventKind.REFERRAL, "surgeon", waits=True)
    drawn = figure(made.SERIES, (waiting,), today=made.TODAY)
    assert of_track(drawn, "events")[0].words == "3 Mar 2025: Referral 1: surgeon (no answer yet)"


# --- markup ---------------------------------------------------------------------------------
@EACH
def test_the_same_input_gives_the_same_bytes(made_as: Callable[[TrendFigure], str]) -> None:
    def once() -> str:
        _drawn_once.cache_clear()
        return made_as(figure(made.SERIES, made.EVENTS, today=made.TODAY))

    assert once() == once()


def test_another_process_gives_the_same_bytes(drawn: TrendFigure) -> None:
    """Set order differs between processes; nothing drawn may hang on it."""
    program = (
        "import django, hashlib; django.setup()\n"
        "from clinic.trends.figure import figure\n"
        "from tests.clinic.trends import made\n"
        "svg = figure(made.SERIES, made.EVENTS, today=made.TODAY).on_paper()\n"
        "print(hashlib.sha256(svg.encode()).hexdigest())"
    )
    other = subprocess.run(
        [sys.executable, "-c", program],
        env={
            "CLINIC_MODE": "test",
            "DATABASE_URL": "postgresql:///unused",
            "DJANGO_SETTINGS_MODULE": "clinic.settings",
            "PYTHONHASHSEED": "2" if os.environ.get("PYTHONHASHSEED") == "1" else "1",
            "PYTHONPATH": str(Path(__file__).resolve().parents[3]),
        },
        capture_output=True,
        text=True,
        check=True,
    )
    here = hashlib.sha256(drawn.on_paper().encode()).hexdigest()
    assert other.stdout.strip() == here


@EACH
def test_nothing_that_the_content_policy_forbids(
    drawn: TrendFigure, made_as: Callable[[TrendFigure], str]
) -> None:
    for element in parsed(made_as(drawn)).iter():
        assert element.tag not in {tag("style"), tag("script"), tag("metadata")}
        for name, value in element.attrib.items():
            assert name != "style"
            assert not name.startswith("on")
            assert "://" not in value
            assert "url(" not in value or value.startswith("url(#")


def test_every_reference_is_met_and_names_of_the_panels_differ(drawn: TrendFigure) -> None:
    seen: set[str] = set()
    for svg in (*(one.svg for one in drawn.on_screen()), drawn.on_paper()):
        names = re.findall(r'\bid="([^"]+)"', svg)
        wanted = set(re.findall(r'href="#([^"]+)"', svg)) | set(re.findall(r"url\(#([^)]+)\)", svg))
        assert wanted <= set(names)
        assert len(names) == len(set(names))
        assert not seen & set(names)
        seen |= set(names)


def test_text_is_text_in_the_type_of_the_page(drawn: TrendFigure) -> None:
    svg = screen(drawn)
    assert "font-family" not in svg
    assert "Protrusion, mm above the skin" in svg


def test_words_of_the_record_cannot_become_markup() -> None:
    nasty = Event(made.day(0), EventKind.PLAN_CHANGE, '<script>alert(1)</script> "&" $x^2$')
    for made_as in MEDIA.values():
        svg = made_as(figure(made.SERIES, (nasty,), today=made.TODAY))
        assert "<script" not in svg
        assert parsed(svg) is not None


def test_paper_has_no_marks_to_press(drawn: TrendFigure) -> None:
    assert marks(drawn.on_paper()) == []


# --- seen without colour --------------------------------------------------------------------
@pytest.mark.parametrize("palette", [SCREEN, PAPER])
def test_fillings_differ_without_colour(palette: object) -> None:
    """By pattern, by dashes, or by a contrast of 3:1 (WCAG 2.2, 1.4.11)."""
    assert palette in (SCREEN, PAPER)
    bars = SCREEN.bars if palette is SCREEN else PAPER.bars
    assert set(bars) == {*map(str, RemovalReason), "", "on"}
    looks = list(bars.values())
    for number, one in enumerate(looks):
        for other in looks[number + 1 :]:
            alike = (one.hatch, one.dashed) == (other.hatch, other.dashed)
            assert not alike or ratio(one.face, other.face) >= 3


def test_every_filling_has_an_outline_of_3_to_1() -> None:
    """WCAG 2.2, 1.4.11, against the paper."""
    for palette in (SCREEN, PAPER):
        lines = [palette.first, palette.second, palette.mark, palette.ink]
        for colour in [*lines, *(look.edge for look in palette.bars.values())]:
            assert ratio(colour, palette.paper) >= 3


def test_text_reaches_4_5_to_1_on_every_ground() -> None:
    """WCAG 2.2, 1.4.3."""
    for palette in (SCREEN, PAPER):
        for colour in (palette.ink, palette.soft):
            assert min(ratio(colour, ground) for ground in (palette.paper, palette.band)) >= 4.5


def test_paper_is_black_and_white() -> None:
    colours = set(re.findall(r"#[0-9a-f]{6}", repr(PAPER)))
    assert all(c[1:3] == c[3:5] == c[5:7] for c in colours)


def test_colours_of_the_screen_are_those_of_the_style_sheet() -> None:
    """By name, so that they are others in the dark; no colour is left that is always the same."""
    assert {COLOURS[token]: token for token in SCREEN.tokens.values()} == SCREEN.tokens
    assert set(re.findall(r"#[0-9a-f]{6}", repr(SCREEN))) <= SCREEN.tokens.keys()
    drawn = screen(figure(made.SERIES, made.EVENTS, today=made.TODAY))
    assert not re.findall(r'(?:fill|stroke|color)="#[0-9a-f]+"', drawn)
    assert "var(--ink)" in drawn
    paper = figure(made.SERIES, made.EVENTS, today=made.TODAY).on_paper()
    assert "var(" not in paper


def test_each_bar_is_filled_by_its_reason() -> None:
    for reason in (*RemovalReason, None):
        bar = Bar(made.day(0), made.day(20), reason)
        svg = figure(replace(made.EMPTY, bars=(bar,)), (), today=made.day(20)).on_paper()
        look = PAPER.bars[str(reason or "")]
        # The bar itself and its place in the key; every other rectangle is not filled so.
        assert svg.count('fill="url(#p-h') == (2 if look.hatch else 0)
        if not look.hatch:
            assert svg.count(f'fill="{look.face}"') >= 2


# --- size -----------------------------------------------------------------------------------
@pytest.mark.parametrize("medium", [PANEL, SHEET, COLUMN])
def test_labels_stay_within_the_figure(medium: Medium) -> None:
    """Every letter, by the library's own measure of its widest type."""
    drawn = figure(made.SPOTTED, made.EVENTS, today=made.TODAY)
    for sheet in drawn.sheets().values() if medium is PANEL else (drawn.sheet(medium),):
        sheet.figure.draw_without_rendering()
        for text in sheet.figure.findobj(Text):
            assert isinstance(text, Text)
            if text.get_text() and text.get_visible():
                box = text.get_window_extent()
                assert box.x0 > -1, text
                assert box.x1 < medium.width + 1, text


def test_the_top_number_of_a_panel_keeps_clear_of_its_heading() -> None:
    """26.0 would be at the very top of this one."""
    drawn = figure(made.only(weight=made.points(25.35, 25.1)), (), today=made.TODAY)
    sheet = drawn.sheets()["weight"]
    sheet.figure.draw_without_rendering()
    axes = sheet.panels["weight"]
    bottom, top = axes.get_ylim()
    per_kg = axes.bbox.height / (top - bottom)
    assert 0 < (top - 26.0) * per_kg < 5
    assert [text.get_text() for text in axes.get_yticklabels()] == ["24.5", "25.0", "25.5"]


def test_years_of_barriers_and_visits_fit() -> None:
    """Three years: 300 barriers, 40 visits."""
    many = Series(
        points=(
            ("protrusion", made.points(*(12 + n % 3 for n in range(40)))),
            ("burden", made.points(*(n % 7 * 100.0 for n in range(40)))),
        ),
        faces=tuple(replace(made.FACES[n % 4], day=made.day(28 * n)) for n in range(40)),
        bars=made.bars(300),
        zones=made.ZONES,
        output_lines=(),
    )
    drawn = figure(many, made.EVENTS, today=date(2028, 6, 1))
    assert len(of_track(drawn, "bars")) == 301
    assert len(of_track(drawn, "faces")) == 40
