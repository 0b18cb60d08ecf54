"""The stages in order: findings and history in, plan out."""

from __future__ import annotations

from typing import Final

from planning.causes import CAUSES, rank
from planning.children.plan import plan_without_figures
from planning.coding.diagnoses import suggested_codes
from planning.consistency import consistent, faults
from planning.evidence.rule_set import RULE_SET
from planning.facts.change_interval import expected_wear
from planning.facts.derive import derive
from planning.facts.missing import missing
from planning.fixed_choice import with_fixed
from planning.inputs.age import AgeGroup
from planning.inputs.check import check
from planning.inputs.errors import InvalidFindings
from planning.inputs.findings import Findings, History
from planning.inputs.fixed import Fixed, Refused
from planning.instructions.dimension import dimensions
from planning.instructions.quantities import quantities
from planning.keep_current_system import fits_well, kept_plan
from planning.needs import needs_of
from planning.notices import notices, plan_notices
from planning.ranked_facts import RankedFacts
from planning.recommendations import advice, referrals, supply_recommendations
from planning.recommendations.suspected_product import suspects_of
from planning.restraint.answers import fit_of, well_of
from planning.restraint.next_steps import later_steps, step_to_ask
from planning.restraint.staging import staged
from planning.results.plan import CauseOf, ItemKind, Plan, Recommendation, RunnerUp
from planning.safety.call_when import call_when
from planning.safety.emergency import emergency_plan
from planning.safety.follow_up import follow_up
from planning.safety.gate import passed
from planning.safety.red_flags import red_flags
from planning.safety.remarks import contact_open, remarks
from planning.supplies.admissible import barred
from planning.supplies.catalogue import SUPPLIES
from planning.supplies.search import why_lost
from planning.supplies.system_choice import SystemChoice, opening_kept
from planning.supplies.worn import worn_now
from planning.technique import technique

_NO_HISTORY = History()
NOTHING_TO_CHOOSE: Final = "No supply is chosen in this plan, so there is none to choose instead."
#: From the barrier outwards.
_PLACE: Final = {kind: place for place, kind in enumerate(ItemKind)}


def recommend(
    findings: Findings, history: History = _NO_HISTORY, fixed: tuple[Fixed, ...] = ()
) -> Plan:
    """The plan for one stoma at one visit; with what the clinician ``fixed`` in the place of
    something it proposes, made again round that.

    Deterministic: the same findings, history and choices give the same plan. Raises
    ``InvalidFindings`` with every reason where the findings contradict themselves, ``Refused``
    where a choice may not be made.
    """
    if errors := check(findings):
        raise InvalidFindings(errors)
    situation = ranked_facts_of(findings, history)
    return plan_around(situation, fixed) if fixed else plan_for(situation)


def ranked_facts_of(findings: Findings, history: History) -> RankedFacts:
    """Facts, causes and red flags; ``findings`` must have passed ``check``."""
    facts = derive(findings, history)
    return RankedFacts(facts, rank(facts, CAUSES), red_flags(facts))


def plan_for(situation: RankedFacts) -> Plan:
    """Under 16 or of unknown age, emergency, well-fitting system, or a plan; checked as a whole."""
    return consistent(unchecked_plan(situation), situation)


def unchecked_plan(situation: RankedFacts) -> Plan:
    """As the rules make it, before it is checked against itself."""
    if situation.facts.age_group is not AgeGroup.ADULT:
        return plan_without_figures(situation)
    return emergency_plan(situation) if situation.emergency else plan_of(choose(situation))


def plan_around(situation: RankedFacts, fixed: tuple[Fixed, ...]) -> Plan:
    """The plan with these choices, never less safe than without: raises ``Refused``."""
    if situation.facts.age_group is not AgeGroup.ADULT or situation.emergency:
        raise Refused(fixed[0], NOTHING_TO_CHOOSE)
    return plan_with(choose(situation), fixed)


def plan_with(proposed: SystemChoice, fixed: tuple[Fixed, ...]) -> Plan:
    """The same, of the choice that the rules propose."""
    plan = plan_of(with_fixed(proposed, fixed))
    if found := faults(plan, proposed.situation):
        raise Refused(fixed[-1], f"It contradicts the rest of the plan ({found[0].why}).")
    return plan


def plan_of(chosen: SystemChoice) -> Plan:
    """The plan of one choice: all kept, or what to change. Not for an emergency."""
    situation = chosen.situation
    if fits_well(situation, chosen):
        return kept_plan(situation, chosen)
    return _plan(situation, chosen)


def choose(situation: RankedFacts) -> SystemChoice:
    """Needs, the best admissible combination and its sizes."""
    facts = situation.facts
    worn = worn_now(facts)
    not_allowed = barred(situation, worn)
    plan = staged(situation, needs_of(situation), worn, not_allowed)
    supplies = passed(situation, frozenset(plan.best.keys))
    return SystemChoice(
        situation=situation,
        needs=plan.needs,
        worn=worn,
        barred=not_allowed,
        best=plan.best.of(supplies),
        runner_up=plan.runner_up,
        sizes=dimensions(facts, plan.needs, supplies, opening_kept(plan.opening, worn, supplies)),
        held_back=frozenset(plan.best.keys) - supplies,
        opening=plan.opening,
        corrections=plan.corrections,
        today=plan.today,
        later=later_steps(plan, situation),
        step=step_to_ask(plan, situation),
        waits=plan.waits,
    )


def _plan(situation: RankedFacts, chosen: SystemChoice) -> Plan:
    again = follow_up(situation, chosen)
    amounts = quantities(chosen, again.in_days)
    presses = chosen.convex or "belt" in chosen.supplies
    return Plan(
        rule_set=RULE_SET,
        urgency=situation.urgency,
        headline=_headline(situation),
        leave_alone=False,
        red_flags=situation.flags,
        causes=situation.causes,
        needs=chosen.needs,
        recommendations=_in_order((*referrals(situation), *_doing(chosen))),
        runner_up=_runner_up(chosen),
        dimensions=chosen.sizes,
        steps=technique(chosen),
        quantities=amounts,
        follow_up=again,
        call_when=call_when(situation, presses=presses),
        notices=(
            *remarks(situation.facts),
            *notices(situation),
            *plan_notices(chosen, amounts),
        ),
        missing=missing(situation.facts),
        supplies=chosen.keys,
        expected_wear=expected_wear(chosen.wear, situation.facts),
        suggested_codes=suggested_codes(situation),
        well=well_of(situation),
        fit=fit_of(chosen),
        next_steps=chosen.later,
        suspects=suspects_of(situation),
    )


def _doing(chosen: SystemChoice) -> tuple[Recommendation, ...]:
    return (*supply_recommendations(chosen), *advice(chosen))


def _in_order(found: tuple[Recommendation, ...]) -> tuple[Recommendation, ...]:
    """As a plan is read: from the barrier outwards; equal kinds keep their order."""
    return tuple(sorted(found, key=lambda r: _PLACE[r.kind]))


def _headline(situation: RankedFacts) -> str:
    """One line: the most urgent danger, else the likeliest cause."""
    if situation.flags:
        flag = situation.flags[0]
        return f"{flag.text}: {flag.refer_to}"
    likely = [cause for cause in situation.causes.causes if cause.score > 0]
    if situation.facts.skin_clear:
        # What is only more likely in this person is no cause of skin that is whole.
        likely = [cause for cause in likely if cause.of is CauseOf.LEAK]
    if situation.causes.cannot_tell_apart and likely:
        return f"{likely[0].title}, or another cause not yet told apart"
    if likely:
        return likely[0].title
    if situation.facts.works and not contact_open(situation.facts):
        return "A good fit: only what is named here is added or changed"
    return "Plan from what is recorded so far"


def _runner_up(chosen: SystemChoice) -> RunnerUp | None:
    other = chosen.runner_up
    if other is None:
        return None
    names = [SUPPLIES[key].name for key in other.keys]
    return RunnerUp(
        supplies=other.keys,
        text=", ".join(names),
        lost_because=why_lost(chosen.best, other, chosen.needs),
    )
