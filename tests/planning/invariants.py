"""What must hold of every plan, whatever the findings."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from shapely import Polygon

from planning import Findings, History, Plan
from planning.coding.code_pairs import conflicts
from planning.consistency import faults
from planning.evidence.citation import CITABLE
from planning.geometry.outline import Point
from planning.inputs.check import check
from planning.inputs.clock import NOWHERE
from planning.inputs.findings import (
    BaselineKind,
    Degree,
    Material,
    PouchKind,
    Profile,
    SkinKind,
    StomaKind,
)
from planning.pipeline import choose, plan_of, ranked_facts_of, unchecked_plan
from planning.ranked_facts import RankedFacts
from planning.results.plan import Change, Urgency
from planning.safety.gate import broken_rules
from planning.safety.red_flags import RULES as FLAGS
from planning.supplies.catalogue import CONVEX, SUPPLIES
from planning.supplies.hazards import Stay, in_force
from planning.supplies.opening_size import Verdict
from planning.supplies.system_choice import SystemChoice
from planning.supplies.trials import hurt, too_strong
from tests.planning.danger_invariants import (
    a_danger_more_never_lowers_and_is_never_routine,
    a_normal_value_less_never_lowers,
    turn,
    two_changes_at_most_but_for_corrections,
)


@dataclass(frozen=True)
class Made:
    """A plan with everything it was made from."""

    found: Findings
    history: History
    plan: Plan
    now: RankedFacts
    chosen: SystemChoice


def make(found: Findings, history: History) -> Made:
    now = ranked_facts_of(found, history)
    chosen = choose(now)
    plan = unchecked_plan(now) if now.emergency else plan_of(chosen)
    return Made(found, history, plan, now, chosen)


def sound_findings_always_get_a_plan(made: Made) -> None:
    assert check(made.found) == ()
    assert made.plan.follow_up.in_days >= 1
    assert made.plan.headline


def no_hazard_is_ever_chosen(made: Made) -> None:
    active = in_force(made.now)
    for key in made.plan.supplies:
        for hazard in (active[h] for h in SUPPLIES[key].hazards if h in active):
            assert hazard.stay is not Stay.NEVER
            assert key in made.chosen.worn.keys
        assert not SUPPLIES[key].materials & (made.found.person.sensitivities or frozenset())
        assert key not in hurt(made.history) or key == "flat_flexible"


def the_last_gate_never_has_to_act(made: Made) -> None:
    """The gate is written apart from the search; both must come to the same."""
    assert made.chosen.held_back == frozenset()
    assert broken_rules(made.now, frozenset(made.chosen.best.keys)) == {}


def an_emergency_suppresses_the_supply_plan(made: Made) -> None:
    if made.plan.urgency is Urgency.EMERGENCY:
        assert made.plan.supplies == ()
        assert made.plan.steps == ()
        assert made.plan.quantities == ()
        assert made.plan.dimensions.opening_length_mm is None
        assert made.plan.dimensions.convex_depth_mm is None


def every_flag_refers_and_the_plan_is_as_urgent(made: Made) -> None:
    assert all(made.plan.urgency.rank <= flag.urgency.rank for flag in made.plan.red_flags)
    referred = {r.key for r in made.plan.recommendations}
    assert {f"refer_{flag.key}" for flag in made.plan.red_flags} <= referred


def no_danger_is_lost_and_nobody_is_called_twice_about_one_finding(made: Made) -> None:
    """Each row of the table that judges danger is in the plan, at its urgency or a higher one."""
    for rule in FLAGS:
        verdict = rule.judge(made.now.facts)
        if verdict is None:
            continue
        home = next(f for f in made.plan.red_flags if rule.key in (f.key, *f.includes))
        assert home.urgency.rank <= verdict.urgency.rank
        assert home.refer_to == (verdict.refer_to or rule.refer_to)
        assert verdict.found in {reason.text for reason in home.because}
    called = [(f.refer_to, f.because[0].finding) for f in made.plan.red_flags]
    about_one = [c for c in called if c[1] not in _SEVERAL]
    assert len(about_one) == len(set(about_one))


#: Fields that hold several findings: two flags may rest on one of them.
_SEVERAL = frozenset({"output.present", "measurement.colour"})


def nothing_in_a_plan_contradicts_itself(made: Made) -> None:
    """The checks over the finished plan never have to act either."""
    assert faults(made.plan, made.now) == ()


def every_powder_is_sealed(made: Made) -> None:
    """Unless the protectant is the culprit, hurt before, one this person reacts to, or not begun
    by somebody with one hand or poor sight."""
    powders = {"powder", "antifungal_powder"} & set(made.plan.supplies)
    if not powders or "protectant" in made.plan.supplies:
        return
    sensitive = Material.PROTECTANT in (made.found.person.sensitivities or frozenset())
    culprit = made.now.suspected is Material.PROTECTANT or "protectant" in hurt(made.history)
    alone = "no_one_helps" in in_force(made.now)
    assert sensitive or culprit or alone or made.plan.leave_alone


def every_ring_or_paste_meets_the_stoma_all_round(made: Made) -> None:
    """In the words of its step, and in figures: the ring's hole is as long round as the stoma."""
    steps = {step.key: step.text for step in made.plan.steps}
    if "ring" in made.plan.supplies:
        assert "touches the mucosa all round" in steps["ring"]
        hole, round_ = made.plan.dimensions.ring_stretched_inner_mm, made.now.facts.outline
        if hole is not None:
            assert round_ is not None
            assert abs(hole * math.pi - round_.perimeter_mm) < 0.01
    if "paste" in made.plan.supplies:
        assert "meets the stoma all round" in steps["paste"]


def the_opening_holds_the_stoma(made: Made) -> None:
    sizes = made.plan.dimensions
    if sizes.opening_length_mm is None:
        return
    assert sizes.opening_length_mm > (sizes.stoma_length_mm or 0)
    assert (sizes.opening_width_mm or 0) > (sizes.stoma_width_mm or 0)
    assert _holds(sizes.opening_outline, sizes.stoma_outline)
    assert sizes.gap_mm is not None
    # One in use that fits stays, from the gap on at which a cut edge no longer rubs.
    least = 1.58 if made.chosen.opening.verdict is not Verdict.STAYS else 0.0
    assert least <= sizes.gap_mm <= 3.18
    if sizes.plateau_mm is not None:
        assert sizes.plateau_mm >= max(sizes.opening_length_mm, sizes.opening_width_mm or 0)


@cache
def _holds(opening: tuple[Point, ...], stoma: tuple[Point, ...]) -> bool:
    return bool(Polygon(opening).buffer(0.02).contains(Polygon(stoma)))


def every_source_is_known(made: Made) -> None:
    cited = {source for reason in _reasons(made.plan) for source in reason}
    assert cited <= CITABLE


def every_recommendation_says_why(made: Made) -> None:
    assert all(r.because and all(b.sources for b in r.because) for r in made.plan.recommendations)
    keys = [r.key for r in made.plan.recommendations]
    assert len(keys) == len(set(keys))
    needs = {need.key for need in made.plan.needs}
    assert all(set(r.need_keys) <= needs for r in made.plan.recommendations)


def no_step_twice_and_skin_before_barrier(made: Made) -> None:
    keys = [step.key for step in made.plan.steps]
    assert len(keys) == len(set(keys))
    order = ["peel", "clean", "dry", "powder", "seal_powder", "ring", "apply", "close", "belt"]
    places = [keys.index(key) for key in order if key in keys]
    assert places == sorted(places)


def a_leak_is_never_put_down_to_allergy(made: Made) -> None:
    causes = made.plan.causes.causes
    if made.now.facts.leaking and causes:
        assert causes[0].key != "allergic_contact"


def pressure_is_checked_within_a_week(made: Made) -> None:
    pressing = CONVEX | {"belt"}
    started = [
        r for r in made.plan.recommendations if r.key in pressing and r.change is not Change.KEEP
    ]
    if any(r.change is not Change.STOP for r in started):
        assert made.plan.follow_up.in_days <= 7
        assert "check_imprint" in {step.key for step in made.plan.steps}


def an_uncomplicated_stoma_is_left_alone(made: Made) -> None:
    """And only such a one: whatever is left alone has sound skin and a barrier that seals."""
    if _uncomplicated(made):
        assert made.plan.leave_alone
    if made.plan.leave_alone:
        assert made.plan.urgency is Urgency.ROUTINE
        worn = [r for r in made.plan.recommendations if r.key not in _TAUGHT]
        assert all(r.change is Change.KEEP for r in worn)
        assert made.now.facts.skin_clear
        assert made.found.system is not None
        assert made.now.facts.occasional or not made.found.system.leak
        assert made.now.facts.occasional or not made.found.system.erosion


#: Advice that begins something even where all is kept: nothing that is worn.
_TAUGHT = frozenset({"log_next_ten", "move_load", "place_centred", "softer_stool", "on_trial"})


def _uncomplicated(made: Made) -> bool:
    """Looked at all over, nothing found, nothing known against what is worn."""
    found, system, m = made.found, made.found.system, made.found.measurement
    if system is None or made.history != History() or made.plan.red_flags:
        return False
    nothing_there = found.skin == () and m.prolapse == () and m.junction == ()
    level = found.abdomen.bulges == () and found.abdomen.creases == ()
    sealed = not found.wear and system.leak == NOWHERE and system.erosion == NOWHERE
    plain = system.pouch is PouchKind.DRAINABLE and system.accessories == frozenset()
    fits = m.length_mm is not None and system.opening_length_mm == m.length_mm + 4
    flat = system.profile is Profile.FLAT and system.flexibility is Degree.MORE
    healthy = found.person.sensitivities == frozenset() and not found.person.has
    bowel = found.stoma.kind is not StomaKind.UROSTOMY
    return all((nothing_there, level, sealed, plain, fits, flat, healthy, bowel))


def healing_powder_only_on_weeping_skin(made: Made) -> None:
    """Powder is not for prevention."""
    powder = next((r for r in made.plan.recommendations if r.key == "powder"), None)
    if powder is not None and powder.change is Change.START:
        kinds = {SkinKind.EROSION, SkinKind.STRIPPING, SkinKind.MACERATION}
        assert any(s.moist or s.kind in kinds for s in made.found.skin or ())


def needs_never_exclude_one_another(made: Made) -> None:
    keys = {need.key for need in made.plan.needs}
    assert not ("flexible_surface" in keys and keys & {"firm_dome", "hold_fold"})
    if "no_cutting" in keys:
        assert not any(s.key in ("cut_opening", "cut_after_measuring") for s in made.plan.steps)


def what_hurt_steps_down(made: Made) -> None:
    assert not too_strong(made.history, CONVEX) & set(made.plan.supplies)


def suggested_codes_never_exclude_one_another(made: Made) -> None:
    codes = [item.code for item in made.plan.suggested_codes]
    assert codes
    assert conflicts(codes) == ()


def the_sheet_stays_short(made: Made) -> None:
    """A line more where an agreed target has signs of its own beside a prolapse."""
    target = made.history.baseline(BaselineKind.OUTPUT_TARGET) is not None
    assert 6 <= len(made.plan.call_when) <= (10 if target else 9)


def _reasons(plan: Plan) -> list[tuple[str, ...]]:
    groups = [
        *(r.because for r in plan.recommendations),
        *(f.because for f in plan.red_flags),
        *(c.supports + c.against for c in plan.causes.causes),
        *(n.because for n in plan.needs),
        plan.notices,
        plan.missing,
        plan.follow_up.because,
    ]
    sources = [reason.sources for group in groups for reason in group]
    return sources + [s.sources for s in plan.steps] + [c.sources for c in plan.call_when]


def a_danger_more_never_lowers_the_urgency(made: Made) -> None:
    a_danger_more_never_lowers_and_is_never_routine(
        made.found, made.now.urgency, made.history, turn(made.plan)
    )


def a_normal_value_less_never_lowers_the_urgency(made: Made) -> None:
    a_normal_value_less_never_lowers(made.found, made.now.urgency, made.history, turn(made.plan))


def never_more_than_two_changes(made: Made) -> None:
    two_changes_at_most_but_for_corrections(made.plan)
    if not made.now.emergency:
        changed = made.chosen.corrections | made.chosen.today
        assert len(changed) <= 2 or not made.chosen.today - made.chosen.corrections


INVARIANTS = (
    sound_findings_always_get_a_plan,
    no_hazard_is_ever_chosen,
    the_last_gate_never_has_to_act,
    nothing_in_a_plan_contradicts_itself,
    an_emergency_suppresses_the_supply_plan,
    every_flag_refers_and_the_plan_is_as_urgent,
    no_danger_is_lost_and_nobody_is_called_twice_about_one_finding,
    every_powder_is_sealed,
    every_ring_or_paste_meets_the_stoma_all_round,
    the_opening_holds_the_stoma,
    every_source_is_known,
    every_recommendation_says_why,
    no_step_twice_and_skin_before_barrier,
    a_leak_is_never_put_down_to_allergy,
    pressure_is_checked_within_a_week,
    an_uncomplicated_stoma_is_left_alone,
    healing_powder_only_on_weeping_skin,
    needs_never_exclude_one_another,
    what_hurt_steps_down,
    suggested_codes_never_exclude_one_another,
    the_sheet_stays_short,
    a_danger_more_never_lowers_the_urgency,
    a_normal_value_less_never_lowers_the_urgency,
    never_more_than_two_changes,
)
