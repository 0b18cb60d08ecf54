"""What must hold of every plan. Each takes the findings, the history and their plan."""

from __future__ import annotations

import json

from shapely import Polygon

from planning import Findings, History, Plan, recommend
from planning.check import check
from planning.findings import Material, SkinKind
from planning.pipeline import choose
from planning.plan import Change, Urgency
from planning.safety.gate import broken_rules
from planning.snapshot import plan_to_dict
from planning.sources import SOURCES
from planning.supplies.catalogue import CONVEX, SUPPLIES
from planning.supplies.hazards import Stay, in_force
from planning.supplies.trials import hurt
from tests.planning.builders import situation


def sound_findings_always_get_a_plan(found: Findings, history: History, plan: Plan) -> None:
    assert check(found) == ()
    assert plan.follow_up.in_days >= 1
    assert plan.headline


def same_input_same_bytes(found: Findings, history: History, plan: Plan) -> None:
    again = recommend(found, history)
    assert json.dumps(plan_to_dict(again)) == json.dumps(plan_to_dict(plan))


def no_hazard_is_ever_chosen(found: Findings, history: History, plan: Plan) -> None:
    now = situation(found, history)
    chosen = choose(now)
    active = in_force(now)
    for key in plan.supplies:
        for hazard in (active[h] for h in SUPPLIES[key].hazards if h in active):
            assert hazard.stay is not Stay.NEVER
            assert key in chosen.worn.keys
        assert not SUPPLIES[key].materials & (found.person.sensitivities or frozenset())
        assert key not in hurt(history) or key == "flat_flexible"


def the_last_gate_never_has_to_act(found: Findings, history: History, plan: Plan) -> None:
    """The gate is written apart from the search; both must come to the same."""
    now = situation(found, history)
    chosen = choose(now)
    assert broken_rules(now, frozenset(chosen.best.keys)) == {}


def an_emergency_suppresses_the_supply_plan(found: Findings, history: History, plan: Plan) -> None:
    if plan.urgency is Urgency.EMERGENCY:
        assert plan.supplies == ()
        assert plan.steps == ()
        assert plan.quantities == ()
        assert plan.dimensions.opening_length_mm is None
        assert plan.dimensions.convex_depth_mm is None


def every_flag_refers_and_the_plan_is_as_urgent(
    found: Findings, history: History, plan: Plan
) -> None:
    assert all(plan.urgency.rank <= flag.urgency.rank for flag in plan.red_flags)
    referred = {r.key for r in plan.recommendations}
    assert {f"refer_{flag.key}" for flag in plan.red_flags} <= referred


def every_powder_is_sealed(found: Findings, history: History, plan: Plan) -> None:
    """Unless the protectant is the culprit, hurt before, or one this person reacts to."""
    powders = {"powder", "antifungal_powder"} & set(plan.supplies)
    if not powders or "protectant" in plan.supplies:
        return
    now = situation(found, history)
    sensitive = Material.PROTECTANT in (found.person.sensitivities or frozenset())
    culprit = now.suspected is Material.PROTECTANT or "protectant" in hurt(history)
    assert sensitive or culprit or plan.leave_alone


def the_opening_holds_the_stoma(found: Findings, history: History, plan: Plan) -> None:
    sizes = plan.dimensions
    if sizes.opening_length_mm is None:
        return
    assert sizes.opening_length_mm > (sizes.stoma_length_mm or 0)
    assert (sizes.opening_width_mm or 0) > (sizes.stoma_width_mm or 0)
    opening = Polygon(sizes.opening_outline).buffer(0.02)
    assert opening.contains(Polygon(sizes.stoma_outline))
    assert sizes.gap_mm is not None
    assert 1.58 <= sizes.gap_mm <= 3.18
    if sizes.plateau_mm is not None:
        assert sizes.plateau_mm >= max(sizes.opening_length_mm, sizes.opening_width_mm or 0)


def every_source_is_known(found: Findings, history: History, plan: Plan) -> None:
    cited = {source for reason in _reasons(plan) for source in reason}
    assert cited <= set(SOURCES)


def every_recommendation_says_why(found: Findings, history: History, plan: Plan) -> None:
    assert all(r.because and all(b.sources for b in r.because) for r in plan.recommendations)
    keys = [r.key for r in plan.recommendations]
    assert len(keys) == len(set(keys))
    needs = {need.key for need in plan.needs}
    assert all(set(r.need_keys) <= needs for r in plan.recommendations)


def no_step_twice_and_skin_before_barrier(found: Findings, history: History, plan: Plan) -> None:
    keys = [step.key for step in plan.steps]
    assert len(keys) == len(set(keys))
    order = ["peel", "clean", "dry", "powder", "seal_powder", "ring", "apply", "close", "belt"]
    places = [keys.index(key) for key in order if key in keys]
    assert places == sorted(places)


def a_leak_is_never_put_down_to_allergy(found: Findings, history: History, plan: Plan) -> None:
    """R20."""
    causes = plan.causes.causes
    if situation(found, history).facts.leaking and causes:
        assert causes[0].key != "allergic_contact"


def pressure_is_checked_within_a_week(found: Findings, history: History, plan: Plan) -> None:
    """R08."""
    pressing = CONVEX | {"belt"}
    started = [r for r in plan.recommendations if r.key in pressing and r.change is not Change.KEEP]
    if any(r.change is not Change.STOP for r in started):
        assert plan.follow_up.in_days <= 7
        assert "check_imprint" in {step.key for step in plan.steps}


def an_uncomplicated_stoma_is_left_alone(found: Findings, history: History, plan: Plan) -> None:
    if plan.leave_alone:
        assert plan.urgency is Urgency.ROUTINE
        assert all(r.change is Change.KEEP for r in plan.recommendations)
        assert found.skin == ()
        assert found.system is not None
        assert not found.system.leak
        assert not found.system.erosion


def healing_powder_only_on_weeping_skin(found: Findings, history: History, plan: Plan) -> None:
    """R8: powder on dry skin is never started."""
    powder = next((r for r in plan.recommendations if r.key == "powder"), None)
    if powder is not None and powder.change is Change.START:
        kinds = {SkinKind.EROSION, SkinKind.STRIPPING, SkinKind.MACERATION}
        assert any(s.moist or s.kind in kinds for s in found.skin or ())


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


INVARIANTS = (
    sound_findings_always_get_a_plan,
    same_input_same_bytes,
    no_hazard_is_ever_chosen,
    the_last_gate_never_has_to_act,
    an_emergency_suppresses_the_supply_plan,
    every_flag_refers_and_the_plan_is_as_urgent,
    every_powder_is_sealed,
    the_opening_holds_the_stoma,
    every_source_is_known,
    every_recommendation_says_why,
    no_step_twice_and_skin_before_barrier,
    a_leak_is_never_put_down_to_allergy,
    pressure_is_checked_within_a_week,
    an_uncomplicated_stoma_is_left_alone,
    healing_powder_only_on_weeping_skin,
)
