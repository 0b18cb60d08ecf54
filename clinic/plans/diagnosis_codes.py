"""Diagnosis codes to choose from, and what the code list says of a choice."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from clinic.plans.models import ChosenCode
from planning import Plan
from planning.coding.code_pairs import conflicts, prompts
from planning.coding.diagnoses import CAVEAT, RELEASE, STATUS, TITLES
from planning.inputs.findings import StomaKind


@dataclass(frozen=True)
class Offer:
    """One code that may be ticked. ``because`` why the plan suggests it, "" where it does not."""

    code: str
    title: str
    release: str
    because: str
    note: str


def offers(plan: Plan, kind: str) -> tuple[Offer, ...]:
    """What the plan suggests, then the status of this kind of stoma (``StomaKind``'s word)."""
    suggested = tuple(
        Offer(
            one.code,
            one.title,
            one.release,
            " ".join(reason.text for reason in one.because),
            one.note or CAVEAT,
        )
        for one in plan.suggested_codes
    )
    status = STATUS[StomaKind(kind)]
    if any(one.code == status for one in suggested):
        return suggested
    return (*suggested, Offer(status, TITLES[status], RELEASE, "", CAVEAT))


def refused(codes: Iterable[str]) -> tuple[str, ...]:
    """Pairs that may not be combined, each in words; empty where all may."""
    return tuple(
        f"{one} and {other} cannot be combined for one stoma (Excludes1 in the code list): "
        "keep one of them."
        for one, other in conflicts(codes)
    )


def asked_for(codes: Iterable[str]) -> tuple[str, ...]:
    """What the chosen codes call for and lack, each in words."""
    chosen = tuple(codes)
    return tuple(f"{code}: {words}." for code, lacks in prompts(chosen).items() for words in lacks)


#: Codes that say that a bulge is a hernia.
HERNIA = frozenset(code for code, title in TITLES.items() if "hernia" in title.lower())


def hernia_confirmed(stoma_id: int) -> bool:
    """Whether a clinician ever chose a code of a hernia for this stoma. A bulge alone is none."""
    return ChosenCode.objects.filter(assessment__stoma_id=stoma_id, code__in=HERNIA).exists()
