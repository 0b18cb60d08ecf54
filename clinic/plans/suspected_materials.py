"""Materials that a signed plan suspects, and whether each is a recorded sensitivity yet."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID, uuid5

from django.utils import timezone

from clinic import formatting
from clinic.patients.models import Material, Sensitivity
from clinic.plans.bridge.person import MATERIALS
from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.visits.models import Assessment
from clinic.visits.presenters.clockface import finding_words
from planning.inputs.findings import Material as Planned

RECORDED = {planned: recorded for recorded, planned in MATERIALS.items()}
#: Under which key the plan says that it suspects a material; the rest is the first.
SAID_AS = {
    Planned.TAPE: "no_tape",
    Planned.LATEX: "latex_clinic",
    Planned.POUCH_COVER: "suspected_cover",
}
SUSPECTED = "suspected_product"
#: Letters that the record keeps of a reaction.
MOST = 200


@dataclass(frozen=True)
class Suspect:
    """``here``: recorded from this plan. ``before``: on record from elsewhere. ``taken_off``:
    recorded from this plan and removed since. ``dropped``: the clinician did not agree."""

    material: Material
    here: bool = False
    before: bool = False
    taken_off: bool = False
    dropped: bool = False

    @property
    def label(self) -> str:
        return str(self.material.label)

    @property
    def open(self) -> bool:
        """Whether it can become a sensitivity now."""
        return not (self.here or self.before or self.taken_off or self.dropped)


def sensitivity_key(assessment: Assessment, material: Material) -> UUID:
    """The id of the one sensitivity that this plan can become: pressed twice, it is one."""
    return uuid5(assessment.uuid, f"sensitivity to {material.value}")


def suspects_of(decided: DecidedPlan) -> tuple[Suspect, ...]:
    """In the order of the plan; none while it is not signed. Two queries where there are any."""
    if not (decided.signed and decided.plan.suspects):
        return ()
    about = decided.assessment
    known = {one.material: one.uuid for one in about.visit.patient.sensitivities.all()}
    dropped = {one.key for one in decided.recommendations if one.choice == Choice.DROPPED}
    keys = {planned: sensitivity_key(about, RECORDED[planned]) for planned in decided.plan.suspects}
    once = _ever(tuple(keys.values()))
    return tuple(
        Suspect(
            material=RECORDED[planned],
            here=key in known.values(),
            before=RECORDED[planned] in known and key not in known.values(),
            taken_off=key in once and key not in known.values(),
            dropped=SAID_AS.get(planned, SUSPECTED) in dropped,
        )
        for planned, key in keys.items()
    )


def _ever(keys: tuple[UUID, ...]) -> set[UUID]:
    history = Sensitivity.pgh_event_model  # type: ignore[attr-defined]
    return set(history.objects.filter(uuid__in=keys).values_list("uuid", flat=True))


def reaction_words(assessment: Assessment) -> str:
    """What was seen on the skin at the visit, as a sensitivity keeps it."""
    day = formatting.day(timezone.localdate(assessment.visit.happened_at))
    seen = "; ".join(finding_words(row) for row in assessment.skin_findings.all())
    words = f"Suspected on {day}, not proven. Seen: {seen or 'see the visit'}"
    return words if len(words) <= MOST else f"{words[: MOST - 1]}…"


def origin_words(assessment: Assessment) -> str:
    """Where the sensitivity comes from."""
    day = formatting.day(timezone.localdate(assessment.visit.happened_at))
    return f"Suspected in the plan of the visit of {day}"
