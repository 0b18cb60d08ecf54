"""What forbids saying "change nothing": anything about the person or the stoma that is not usual.

A red flag forbids it too. These findings need no flag of their own, or leave a question open.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from planning.evidence.thresholds import PAIN_MODERATE
from planning.facts.colour import colours
from planning.facts.derive import Facts, still_shrinks
from planning.inputs.findings import (
    BaselineKind,
    Bleeding,
    Colour,
    Condition,
    Oedema,
    PouchBlood,
    Symptom,
    Turgor,
    UrineSign,
)
from planning.safety.baselines import as_known
from planning.safety.baselines.colour import colour_usual
from planning.safety.pain import pain_without_cause
from planning.safety.vital_signs import anticoagulated


def unsettled(facts: Facts) -> bool:
    """A symptom, an unusual sign of the stoma, pain, unusual urine or an open danger question."""
    return any(holds(facts) for holds in _SIGNS)


def _symptom(facts: Facts) -> bool:
    known = {Symptom.CONFUSION} if as_known(facts, BaselineKind.CONFUSION) else set()
    return bool(facts.findings.output.present - known)


def _pain(facts: Facts) -> bool:
    return pain_without_cause(facts) >= PAIN_MODERATE.value


def _urine(facts: Facts) -> bool:
    signs = facts.findings.output.urine_signs or frozenset()
    agreed = {UrineSign.PINK, UrineSign.CLOUDY}
    known = agreed if as_known(facts, BaselineKind.PINK_URINE_OR_MUCUS) else set()
    return bool(signs - known) or facts.findings.output.pouch_blood not in (None, PouchBlood.NONE)


def _looks(facts: Facts) -> bool:
    m = facts.findings.measurement
    odd = colours(facts) - {Colour.PINK_RED} and not colour_usual(facts)
    return bool(odd) or m.turgor not in (None, Turgor.MOIST_SOFT)


def _swollen(facts: Facts) -> bool:
    """A new stoma is swollen for some weeks; later, and whenever marked, it is not usual."""
    oedema = facts.findings.measurement.oedema
    if oedema is Oedema.MARKED:
        return True
    return oedema is Oedema.MILD and not still_shrinks(facts)


def _bleeds(facts: Facts) -> bool:
    """Contact bleeding is usual only where blood thinners and liver disease are excluded, or where
    it was agreed as known."""
    bleeding = facts.findings.measurement.bleeding
    if bleeding is Bleeding.ON_WIPING:
        if as_known(facts, BaselineKind.CONTACT_BLEEDING):
            return False
        return anticoagulated(facts) is not False or facts.has(Condition.LIVER_DISEASE) is not False
    return bleeding not in (None, Bleeding.NONE)


def _apart(facts: Facts) -> bool:
    """A gap that is not agreed as known, or is no longer as it was."""
    return bool(facts.separated) and not as_known(facts, BaselineKind.SEPARATION)


def _hurt(facts: Facts) -> bool:
    return bool(_apart(facts) or facts.findings.measurement.deep_cut)


_SIGNS: Final[tuple[Callable[[Facts], bool], ...]] = (
    _symptom, _pain, _urine, _looks, _swollen, _bleeds, _hurt,
)  # fmt: skip
