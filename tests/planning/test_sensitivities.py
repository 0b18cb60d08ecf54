"""Whatever a person is recorded to react to, no word of the plan offers it."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning import Findings, Plan, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bulge,
    Condition,
    Crease,
    Material,
    Person,
    Profile,
    SkinKind,
)
from planning.results.plan import Change
from tests.planning.builders import LOW, leaking, raw, seen, well
from tests.planning.recommendations.test_each_advice import ROWS as ADVISED
from tests.planning.recommendations.test_situations import ROWS as SITUATED
from tests.planning.safety.test_red_flags import ROWS as FLAGGED
from tests.planning.strategies import findings
from tests.planning.sweep import states
from tests.planning.test_properties import many

#: How each material is spoken of. A barrier is worn in any case, of another material.
WORDS = {
    Material.RING: r"\b(?:rings?|strips?)\b",
    Material.PASTE: r"\bpaste\b",
    Material.POWDER: r"\bpowder",
    Material.PROTECTANT: r"\bfilm\b|protectant",
    Material.ADHESIVE_REMOVER: r"\bremover\b",
    Material.LATEX: r"\b(?:belts?|garments?)\b",
    Material.TAPE: r"\btape\b",
    Material.ALCOHOL: r"\b(?<!no )alcohol\b(?!-free)",
}
#: What forbids, takes away, makes suspect, or names a thing free of it.
_NOT = re.compile(
    r"\bno\b[^.;:]*|\b(?:do not|without|take off|take [^.;:]* off|loosen|suspected:)[^.;]*"
    r"|\b(?:nothing with|look for)[^.;]*"
    r"|latex-free [^.:]*|alcohol-free|\b[a-z ]+ and belt off",
    re.IGNORECASE,
)


def offers(plan: Plan, material: Material) -> list[str]:
    """Texts of ``plan`` that name ``material`` and do not take it away."""
    texts = [
        text
        for r in plan.recommendations
        if r.change is not Change.STOP
        for text in (r.text, str(r.patient_text or ""), r.caution)
    ]
    texts += [text for s in plan.steps for text in (s.text, str(s.patient_text or ""))]
    return [t for t in texts if t and re.search(WORDS[material], _NOT.sub(" ", t), re.IGNORECASE)]


def reacting(found: Findings, *materials: Material) -> Findings:
    return replace(found, person=replace(found.person, sensitivities=frozenset(materials)))


@settings(many, max_examples=60)
@given(findings, st.frozensets(st.sampled_from(sorted(WORDS)), min_size=1))
def test_no_generated_plan_offers_what_the_person_reacts_to(
    found: Findings, known: frozenset[Material]
) -> None:
    plan = recommend(reacting(found, *known))
    assert {m: said for m in known if (said := offers(plan, m))} == {}


@pytest.mark.parametrize("material", WORDS)
def test_no_plan_of_the_sweep_offers_what_the_person_reacts_to(material: Material) -> None:
    for found, history in states(60):
        assert offers(recommend(reacting(found, material), history), material) == []


@pytest.mark.parametrize("material", WORDS)
def test_neither_advice_nor_referral_offers_what_the_person_reacts_to(material: Material) -> None:
    """Every example of a piece of advice and of a red flag."""
    for changes in (
        *(with_it for _, with_it, _ in (*ADVISED, *SITUATED)),
        *(found for _, found, _ in FLAGGED),
    ):
        plan = recommend(reacting(well(**changes), material))
        assert offers(plan, material) == [], changes


def test_the_search_for_offers_finds_them() -> None:
    """Otherwise the tests above could not fail."""
    plain = Person(sensitivities=frozenset())
    soft = leaking(person=plain, protrusion_mm=-6.0, accessories=frozenset(Accessory))
    plan = recommend(replace(soft, abdomen=replace(soft.abdomen, creases=(Crease(LOW, 3.0),))))
    for material in (Material.RING, Material.POWDER, Material.PROTECTANT, Material.LATEX):
        assert offers(plan, material), material


# --- what is said instead ---------------------------------------------------------------------
BULGE: dict[str, Any] = {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}


def text_of(plan: Plan, key: str) -> str:
    found = next(r for r in plan.recommendations if r.key == key)
    return f"{found.text} {found.patient_text or ''}"


def test_a_garment_is_offered_latex_free_to_who_reacts_to_latex() -> None:
    levelled = frozenset({Accessory.HALF_RING})
    found = leaking(**BULGE, profile=Profile.CONCAVE, accessories=levelled)
    assert "latex" not in text_of(recommend(found), "support_fitting")
    said = text_of(recommend(reacting(found, Material.LATEX)), "support_fitting")
    assert said.count("latex-free support") == 2
    weals = seen(SkinKind.ERYTHEMA, ClockHours.of(9), inner_mm=110.0, outer_mm=120.0)
    belted = levelled | {Accessory.BELT}
    under = well(**BULGE, skin=(weals,), accessories=belted, profile=Profile.CONCAVE, leak=LOW)
    assert text_of(recommend(under), "support_fitting").count("latex-free support") == 2


@pytest.mark.parametrize(
    ("known", "says"),
    [
        ((), "fill to skin level with the ring and change earlier"),
        ((Material.RING,), "reasons last: change earlier;"),
        ((Material.RING, Material.PASTE), "reasons last: change earlier;"),
    ],
)
def test_a_low_stoma_without_a_dome_is_filled_with_what_may_be_worn(
    known: tuple[Material, ...], says: str
) -> None:
    liver = Person(has=frozenset({Condition.LIVER_DISEASE}))
    plan = recommend(reacting(leaking(protrusion_mm=0.0, person=liver), *known))
    assert says in text_of(plan, "open_lift_rim")


def test_irradiated_skin_keeps_to_the_flat_barrier_where_nothing_fills() -> None:
    rays = Person(has=frozenset({Condition.RADIOTHERAPY_ABDOMEN}))
    found = leaking(protrusion_mm=0.0, person=rays)
    plan = recommend(reacting(found, Material.RING, Material.PASTE))
    assert "keep to the soft flat barrier" in text_of(plan, "open_lift_rim")


def test_yeast_without_powder_is_the_prescribers_question() -> None:
    found = well(skin=(seen(SkinKind.SATELLITES),))
    assert "antifungal powder" in text_of(recommend(found), "open_treat_yeast")
    said = text_of(recommend(reacting(found, Material.POWDER)), "open_treat_yeast")
    assert "without powder" in said
    assert "special powder" not in said


def test_what_may_not_be_worn_is_no_step_for_a_crease_or_a_bulge() -> None:
    """The step that needs it is passed over; the next one is taken."""
    crease = recommend(reacting(leaking(creases=(Crease(LOW, 5.0),)), Material.RING))
    assert not {"strip", "ring"} & set(crease.supplies)
    worn = leaking(**BULGE, profile=Profile.CONCAVE)
    step = recommend(reacting(worn, Material.RING))
    assert "half_ring" not in step.supplies
    assert "edge_strips" not in {later.key for later in step.next_steps}


def test_the_flag_of_irradiated_skin_names_no_product_to_put_on() -> None:
    rays = Person(has=frozenset({Condition.RADIOTHERAPY_ABDOMEN}))
    plan = recommend(reacting(well(skin=(raw(),), person=rays), Material.ADHESIVE_REMOVER))
    assert "remover" not in text_of(plan, "refer_radiation")
