"""The outcome of each plan in worked courses, and what must hold of every course."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning.course.errors import Measure, MeasuringErrors, UsedError
from planning.course.harm import hurt_by
from planning.course.looks import WINDOW
from planning.course.outcome import outcomes
from planning.course.record import Course, Worn
from planning.course.results import Finding, Judged, Verdict
from planning.course.verdict import overall, words
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Accessory, Output, Profile, SkinKind
from planning.statistics.error import MeasuredError
from tests.planning.builders import LOW, leaking, raw, well
from tests.planning.builders import seen as finding
from tests.planning.course.course_builders import LEAK, PLANNED, course, day, log, visit

HELPED, SAME, WORSE = Verdict.HELPED, Verdict.NO_DIFFERENT, Verdict.WORSE
OPEN = Verdict.CANNOT_TELL

#: A check on day 0, then leaks every other day until the plan of day 42; since, one in a month.
BEFORE = log(0, [(2, LEAK)] * 21)
SINCE = log(42, [(4, PLANNED)] * 6 + [(4, LEAK)])
CHANGED = visit(42, leaking(), "soft convex barrier", "ring", supplies=frozenset({"ring"}))
COURSE = course(
    visit(0, leaking()), CHANGED, visit(70, well(), said_helped=True), worn=BEFORE + SINCE, today=70
)


def test_a_plan_that_helped() -> None:
    """14 leaks in the 28 days before the last fortnight, 1 in the 28 since; skin healed, and as bad
    at the check before."""
    found = outcomes(COURSE)[1]
    assert (found.verdict, found.until, found.persists) == (HELPED, None, True)
    assert [f.verdict for f in found.findings] == [HELPED, HELPED, HELPED]
    assert found.changed == ("soft convex barrier", "ring")
    assert found.supplies == {"ring"}
    assert found.look == day(70)
    assert found.text.startswith(
        "It helped. Leaks a week went from 3.5 to 0.25 (14 leaks in 28 days before, 1 in 28 days "
        "since; 0.07 times, 97.8 % interval 0 to 0.58). Before, half of the barriers held 2 days; "
    )
    assert found.text.endswith(
        "As known on 12 May 2025, look 1 of 3; the next by 9 Jun 2025. Recorded at the next visit: "
        "it helped."
    )


def test_the_same_course_backwards_made_it_worse() -> None:
    worn = log(0, [(4, PLANNED)] * 10 + [(2, LEAK)] + [(2, LEAK)] * 14)
    turned = course(visit(0), visit(42, None, "paste"), visit(70, leaking()), worn=worn, today=70)
    assert outcomes(turned)[1].verdict is WORSE
    assert outcomes(turned)[1].text.startswith("Things got worse. ")


def test_a_plan_that_changed_nothing_is_judged_and_says_so() -> None:
    first, _, last = outcomes(COURSE)
    assert first.text.startswith("This plan changed nothing. No difference has been shown yet. ")
    assert first.until == day(42)
    assert last.verdict is OPEN
    assert last.text == (
        "This plan changed nothing. No difference has been shown yet. It is judged at the first "
        "visit from 26 May 2025, on 9 Jun 2025 at last."
    )
    assert "helped" not in first.text + last.text  # there was nothing that could


def test_too_few_barriers_are_said_once_for_leaks_and_wear() -> None:
    young = replace(COURSE, visits=COURSE.visits[:2], worn=BEFORE + SINCE[:3], today=day(70))
    found = outcomes(young)[1]
    assert found.verdict is OPEN
    assert found.text == (
        "No difference has been shown yet. Leaks and wear cannot be compared: only 3 barriers "
        "since, and it takes at least 5 each time. There has been no visit since to look at the "
        "skin. As known on 12 May 2025, look 1 of 3; the next by 9 Jun 2025."
    )
    assert [f.after for f in found.findings] == [None, None, None]
    assert found.persists is None


def test_no_log_and_no_skin_say_what_is_missing() -> None:
    found = outcomes(course(visit(0, well(skin=None), "ring")))[0]
    assert found.verdict is OPEN
    assert "Leaks and wear cannot be compared: no wear log was kept." in found.text


def test_the_visit_of_the_next_change_still_answers_for_the_plan_before() -> None:
    sore = leaking()
    two = course(
        visit(-21, sore), visit(0, sore, "ring"), visit(14, well(), "belt"), visit(28, sore)
    )
    _, first, second, _ = outcomes(two)
    assert first.findings[2].verdict is HELPED
    assert second.findings[2].verdict is WORSE


def test_nothing_wrong_before_or_since_is_said_and_is_no_verdict() -> None:
    fine = log(0, [(4, PLANNED)] * 11) + log(44, [(4, PLANNED)] * 8)
    found = outcomes(course(visit(0), visit(44), visit(72), worn=fine, today=76))[1]
    assert (found.verdict, found.persists) == (OPEN, False)
    assert "Nothing was wrong before or since." in found.text


# --- what a plan answers for --------------------------------------------------------------------
def test_a_bad_fortnight_before_the_visit_is_no_measure_of_the_plan() -> None:
    """Section 13, regression to the mean: a leak in four days, then six in the fortnight that made
    the visit, then a leak in four days again."""
    usual = log(0, [(4, LEAK)] * 14)
    spell = log(56, [(2, LEAK)] * 7)
    after = log(70, [(4, LEAK)] * 10)
    whole = course(visit(70, None, "ring"), worn=(*usual, *spell, *after), today=154)
    assert outcomes(whole)[0].findings[0].verdict is OPEN
    # With nothing but that fortnight to compare with, it is said instead.
    short = outcomes(replace(whole, worn=(*log(56, [(1, LEAK)] * 14), *after)))[0]
    assert short.verdict is OPEN
    assert short.findings[0].settles
    assert short.text.startswith("Things got better, but it is not shown that the plan did it. ")


def test_skin_found_eleven_months_later_is_not_the_plans_fault() -> None:
    plan = visit(0, well(), "ring", supplies=frozenset({"ring"}))
    late, soon = (outcomes(course(plan, visit(n, leaking()), today=n))[0] for n in (335, 28))
    assert soon.verdict is WORSE
    assert (late.verdict, late.findings[2].after) == (OPEN, None)


def test_leaks_after_twelve_weeks_belong_to_another_time() -> None:
    quiet = log(0, [(4, PLANNED), (4, LEAK)] * 6) + log(48, [(4, PLANNED), (4, LEAK)] * 10)
    later = log(133, [(1, LEAK)] * 80)
    told = [
        outcomes(course(visit(48, None, "ring"), worn=worn, today=213))[0]
        for worn in (quiet, quiet + later)
    ]
    assert told[0].findings[0] == told[1].findings[0]


def test_every_week_is_looked_at_and_three_times_is_judged() -> None:
    """Section 13: 3 planned looks. Between them nothing new is said, whatever is logged."""
    worn = log(0, [(2, LEAK)] * 28) + log(56, [(4, PLANNED)] * 30)
    said = []
    for today in range(56, 170, 7):
        known = tuple(w for w in worn if w.on <= day(today))
        said.append(outcomes(course(visit(56, None, "ring"), worn=known, today=today))[0])
    assert [one.look for one in said if one.look] == [
        *[day(84)] * 4,
        *[day(112)] * 4,
        *[day(140)] * 5,
    ]
    assert len({(one.findings, one.verdict) for one in said}) == 4  # too early, and three


def test_the_error_of_the_clinic_takes_the_place_of_ours() -> None:
    two = course(visit(0, well(), "ring"), visit(28, leaking()), today=28)
    assert outcomes(two)[0].verdict is WORSE
    coarse = UsedError(Measure.AREA, 2.0, MeasuredError(1.5, 1.0, 2.0, 30))
    own = outcomes(replace(two, errors=MeasuringErrors(area=coarse)))[0]
    assert own.verdict is OPEN
    said = "this clinic's own, from 30 repeats, 95 % interval 100 to 200 %"
    assert said in own.text
    assert "clinic's own" not in outcomes(two)[0].text


# --- the overall rule -------------------------------------------------------------------------
def judged(*verdicts: Verdict, after: float = 0.0) -> list[Finding]:
    kinds = (Judged.LEAKS, Judged.WEAR, Judged.SKIN)
    chance = {HELPED: 0.001, WORSE: 0.001, SAME: 0.5, OPEN: 0.5}
    return [
        Finding(of, verdict, f"{of}.", ("design_value",), after, after, chance=chance[verdict])
        for of, verdict in zip(kinds, verdicts, strict=True)
    ]


@pytest.mark.parametrize(
    ("verdicts", "after", "expected"),
    [
        ((HELPED, HELPED, WORSE), 1.0, OPEN),
        ((OPEN, OPEN, WORSE), 1.0, WORSE),
        ((SAME, WORSE, SAME), 1.0, WORSE),
        ((HELPED, OPEN, SAME), 1.0, HELPED),
        ((SAME, SAME, SAME), 1.0, SAME),
        ((SAME, OPEN, SAME), 1.0, OPEN),
        ((SAME, SAME, OPEN), 1.0, OPEN),
        ((SAME, SAME, SAME), 0.0, OPEN),
        ((OPEN, OPEN, OPEN), 0.0, OPEN),
    ],
)
def test_the_overall_rule(verdicts: tuple[Verdict, ...], after: float, expected: Verdict) -> None:
    assert overall(judged(*verdicts, after=after)) is expected


def test_one_of_three_has_to_be_clearer_than_one_alone() -> None:
    """Simes: 0.0221 over 3 for one of three; what was not judged does not count."""
    leaks, wear, skin = judged(HELPED, OPEN, OPEN, after=1.0)
    for chance, others, expected in (
        (0.0073, (wear, skin), HELPED),
        (0.0075, (wear, skin), OPEN),
        (0.0109, (wear, replace(skin, chance=None)), HELPED),
        (0.0221, (replace(wear, chance=None), replace(skin, chance=None)), HELPED),
        (0.0147, (replace(wear, chance=0.0147), skin), HELPED),
    ):
        assert overall([replace(leaks, chance=chance), *others]) is expected
    for one, way in ((leaks, "better"), (replace(leaks, verdict=WORSE), "worse")):
        doubtful = words([replace(one, chance=0.0075), wear, skin], changed=True)
        assert doubtful.startswith(
            f"No difference has been shown yet in all: leaks {way}, but of several things judged "
            "one may be so by chance. leaks."
        )


@pytest.mark.parametrize(
    ("before", "after", "lead"),
    [
        (0.0, 0.0, "Nothing was wrong before or since"),
        (1.0, 0.0, "No difference has been shown yet"),
        (0.0, 1.0, "No difference has been shown yet"),
        (None, 0.0, "No difference has been shown yet"),
    ],
)
def test_nothing_was_wrong_only_where_nothing_was_at_either_time(
    before: float | None, after: float, lead: str
) -> None:
    leaks, wear, skin = judged(OPEN, OPEN, OPEN)
    wear = replace(wear, before=66.7, after=None)  # says nothing of wrong or right
    text = words([replace(leaks, before=before, after=after), wear, skin], changed=True)
    assert text == f"{lead}. leaks. wear. skin."


@pytest.mark.parametrize(
    ("verdict", "lead"),
    [
        (OPEN, "Things got better, but it is not shown that the plan did it."),
        (HELPED, "It helped."),
        (WORSE, "Things got worse."),
    ],
)
def test_skin_that_would_settle_anyway_is_said_where_nothing_else_is_clear(
    verdict: Verdict, lead: str
) -> None:
    leaks, wear, skin = judged(verdict, OPEN, OPEN, after=1.0)
    assert words([leaks, wear, replace(skin, settles=True)], changed=True).startswith(f"{lead} ")


@pytest.mark.parametrize(
    ("verdicts", "texts"),
    [
        ((OPEN, SAME, WORSE), "skin. wear. leaks."),
        ((SAME, SAME, HELPED), "skin. leaks. wear."),
        ((WORSE, SAME, HELPED), "leaks. skin. wear."),
    ],
)
def test_what_decides_the_verdict_is_said_first(verdicts: tuple[Verdict, ...], texts: str) -> None:
    assert words(judged(*verdicts), changed=True).endswith(f". {texts}")


def test_what_leaks_alone_lack_is_not_said_of_wear() -> None:
    leaks, wear, skin = judged(OPEN, SAME, SAME)
    lacking = replace(leaks, text="Leaks cannot be compared: no barrier was worn a whole day.")
    assert words((lacking, wear, skin), changed=True).endswith(f"wear. skin. {lacking.text}")


def test_mixed_is_said_in_words() -> None:
    text = words(judged(HELPED, HELPED, WORSE), changed=True)
    assert text.startswith("It is mixed: leaks and wear better, skin worse.")


# --- what hurt --------------------------------------------------------------------------------
MARKED = well(
    skin=(finding(SkinKind.PRESSURE_MARK, LOW, pain=True),),
    profile=Profile.CONVEX,
    convex_depth_mm=5.0,
    flexibility=None,
    accessories=frozenset({Accessory.BELT}),
)
PRESSED = frozenset({"soft_convex_moderate", "belt", "ring"})


def test_what_presses_is_blamed_for_a_pressure_mark_that_came_after_it() -> None:
    plan = visit(0, well(), "dome", supplies=PRESSED)
    assert hurt_by(plan, [visit(7, MARKED)]) == {"soft_convex_moderate", "belt"}
    assert outcomes(course(plan, visit(7, MARKED)))[0].hurt == {"soft_convex_moderate", "belt"}


def test_months_later_only_what_was_charted_as_worn_is_blamed() -> None:
    """After the time in which it is judged, a plan is no reason to think that a thing was worn."""
    plan = visit(0, well(), "dome", supplies=PRESSED)
    unsaid = replace(MARKED, system=replace(MARKED.system, accessories=None))  # type: ignore[type-var]
    soon, late = (outcomes(course(plan, visit(n, unsaid), today=n))[0].hurt for n in (7, 335))
    assert "belt" in soon
    assert "belt" not in late
    assert "belt" in outcomes(course(plan, visit(335, MARKED), today=335))[0].hurt


def test_a_mark_that_was_there_before_blames_nothing() -> None:
    assert hurt_by(visit(0, MARKED, supplies=PRESSED), [visit(7, MARKED)]) == frozenset()


def test_what_was_certainly_not_worn_is_not_blamed() -> None:
    deep = frozenset({"firm_convex_deep", "belt"})
    unbelted = replace(MARKED, system=replace(MARKED.system, accessories=frozenset()))  # type: ignore[type-var]
    assert hurt_by(visit(0, supplies=deep), [visit(7, unbelted)]) == frozenset()


def test_the_product_suspected_of_a_contact_reaction_is_blamed() -> None:
    itching = well(
        skin=(
            raw(
                ClockHours.all_round(),
                kind=SkinKind.ERYTHEMA,
                outer_mm=40.0,
                itch=True,
                moist=None,
                burning=None,
                product_outline=True,
            ),
        ),
        accessories=frozenset({Accessory.PROTECTANT}),
    )
    plan = visit(0, supplies=frozenset({"protectant", "ring", "flat_flexible"}))
    assert hurt_by(plan, [visit(14, itching)]) == {"protectant"}


def test_weals_under_a_planned_belt_are_blamed_on_the_belt_alone() -> None:
    sides = ClockHours.of(3, 9)
    weals = raw(sides, kind=SkinKind.ERYTHEMA, inner_mm=115.0, outer_mm=125.0, moist=None)
    later = well(skin=(weals,), accessories=frozenset({Accessory.BELT, Accessory.PROTECTANT}))
    plan = visit(0, supplies=frozenset({"protectant", "belt", "flat_flexible"}))
    assert hurt_by(plan, [visit(14, later)]) == {"belt"}


def test_a_bruise_under_what_presses_is_a_pressure_injury_too() -> None:
    bruised = replace(MARKED, skin=(finding(SkinKind.BRUISE, LOW),))
    assert hurt_by(visit(0, supplies=PRESSED), [visit(7, bruised)]) == PRESSED - {"ring"}


def test_what_cannot_be_so_blames_nothing() -> None:
    impossible = replace(MARKED, output=Output(volume_ml_24h=-1.0))
    assert hurt_by(visit(0, supplies=PRESSED), [visit(7, impossible)]) == frozenset()


def test_sound_skin_hurts_no_one() -> None:
    assert hurt_by(visit(0, supplies=PRESSED), [visit(7, well()), visit(14, leaking())]) == set()


# --- what must always hold --------------------------------------------------------------------
_REASON = st.sampled_from([PLANNED, LEAK])
_SPANS = st.lists(st.tuples(st.integers(0, 6), _REASON), max_size=20)


@st.composite
def courses(draw: st.DrawFn) -> Course:
    """Up to four visits over a log without gaps, some plans changing something."""
    worn = log(0, draw(_SPANS))
    days = sorted(draw(st.sets(st.integers(0, 80), min_size=1, max_size=4)))
    found = st.sampled_from([well(), leaking(), well(skin=None)])
    change = st.sampled_from([(), ("ring",)])
    visits = (visit(n, draw(found), *draw(change)) for n in days)
    return course(*visits, today=120, worn=draw(st.sampled_from([worn, None])))


@settings(max_examples=60)
@given(courses(), st.randoms(use_true_random=False))
def test_the_order_that_comes_in_does_not_matter(given_course: Course, random: object) -> None:
    visits, worn = list(given_course.visits), list(given_course.worn or ())
    random.shuffle(visits)  # type: ignore[attr-defined]
    random.shuffle(worn)  # type: ignore[attr-defined]
    kept = None if given_course.worn is None else tuple(worn)
    turned = replace(given_course, visits=tuple(visits), worn=kept)
    assert outcomes(turned) == outcomes(given_course)


@settings(max_examples=60)
@given(courses(), st.integers(1, 400))
def test_time_alone_tells_nothing(given_course: Course, days: int) -> None:
    """Once the last look is past and with nothing still on, a later today changes nothing."""
    whole = replace(given_course, today=day(80 + WINDOW))
    later = replace(whole, today=whole.today + timedelta(days=days))
    assert outcomes(later) == outcomes(whole)


@settings(max_examples=60)
@given(courses(), st.integers(0, 400))
def test_a_barrier_left_on_never_makes_too_few_enough(given_course: Course, days: int) -> None:
    worn = (*(given_course.worn or ())[:4], Worn(day(110)))
    few = replace(given_course, worn=worn, today=given_course.today + timedelta(days=days))
    for outcome in outcomes(few):
        assert {f.verdict for f in outcome.findings[:2]} == {OPEN}
        assert {f.after for f in outcome.findings[:2]} == {None}


@settings(max_examples=60)
@given(courses(), st.data())
def test_a_leak_more_since_never_makes_the_outcome_better(
    given_course: Course, data: st.DataObject
) -> None:
    """A planned change that had been a leak instead, after the last plan."""
    last = given_course.visits[-1].day
    places = [
        i for i, w in enumerate(given_course.worn or ()) if w.reason is PLANNED and w.on > last
    ]
    if not places:
        return
    worn = list(given_course.worn or ())
    place = data.draw(st.sampled_from(places))
    worn[place] = replace(worn[place], reason=LEAK)
    leaks_now = outcomes(replace(given_course, worn=tuple(worn)))[-1].findings[0]
    leaks_then = outcomes(given_course)[-1].findings[0]
    order = {WORSE: 0, SAME: 1, OPEN: 1, HELPED: 2}
    assert order[leaks_now.verdict] <= order[leaks_then.verdict]


@settings(max_examples=60)
@given(courses())
def test_a_figure_is_there_or_something_is_said_to_be_missing(given_course: Course) -> None:
    for outcome in outcomes(given_course):
        assert len(outcome.findings) == 3
        for found in outcome.findings:
            assert found.text.endswith(".")
            if found.verdict in (HELPED, WORSE):
                assert found.before is not None or found.of is Judged.WEAR
