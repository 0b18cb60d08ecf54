"""The skin round the stoma: what is seen, at which hours, how far out."""

import uuid

from django.db import models
from django.db.models import F, Q

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.charted import Charted
from clinic.visits.models.fields import (
    hours,
    hours_valid,
    in_range,
    measured,
    one_of,
    word,
    yes_no,
)
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied
from planning.inputs import quantities as q


@tracked()
class SkinAssessment(Charted):
    """Whether the skin was looked at, and found intact or not; "" is not recorded."""

    assessment = models.OneToOneField(
        Assessment, on_delete=models.CASCADE, related_name="skin_assessment"
    )
    state = word("Skin round the stoma", choices.SkinState)
    wounds = word("Open wound near the stoma", choices.Presence)
    other_stomas = word("Another stoma on this abdomen", choices.Presence)

    class Meta:
        constraints = [
            one_of("state", choices.SkinState, "skin_state_known"),
            one_of("wounds", choices.Presence, "skin_wounds_known"),
            one_of("other_stomas", choices.Presence, "skin_other_stomas_known"),
        ]
        triggers = [
            final_once_signed("skin_final_once_signed", OF_ASSESSMENT),
            never_emptied("skin_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Skin {self.pk}"


@tracked()
class SkinFinding(Charted):
    """One kind at some hours. ``id`` is made where the row is typed, so a resent save is the same
    row and not a second one."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    assessment = models.ForeignKey(
        Assessment, on_delete=models.CASCADE, related_name="skin_findings"
    )
    position = models.PositiveSmallIntegerField(default=0)
    kind = models.CharField("Kind", max_length=30, choices=choices.SkinKind.choices)
    hours = hours("Hours")
    inner_mm = measured(q.SKIN_FROM)
    outer_mm = measured(q.SKIN_TO)
    itch = yes_no("Itch")
    pain = yes_no("Pain")
    burning = yes_no("Burning")
    moist = yes_no("Weeping")
    product_outline = yes_no("Sharp edge, shape of a product")
    enlarging = yes_no("Growing quickly")
    outline_of = word("Shape of which product", choices.Product)
    hours_to_spread = measured(q.SKIN_SPREAD)
    fades_min = measured(q.MARK_FADES)
    stays_min = measured(q.MARK_STAYS)
    minutes_after_contact = measured(q.WEALS_AFTER)
    days = measured(q.SKIN_DAYS)
    across_mm = measured(q.SKIN_ACROSS)
    changing = yes_no("Grew, changed colour or bled since last seen")
    numb_or_crackling = yes_no("Numb, crackling or grey-purple")
    flat_edge = yes_no("Punched out, edge not undermined")
    pain_0_10 = measured(q.SKIN_PAIN)

    class Meta:
        ordering = ["position", "id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(kind__in=choices.SkinKind.values), name="skin_kind_known"
            ),
            hours_valid("hours", "skin_hours_valid"),
            models.CheckConstraint(condition=Q(hours__len__gt=0), name="skin_has_hours"),
            in_range("inner_mm", q.SKIN_FROM, "skin_inner_range"),
            in_range("outer_mm", q.SKIN_TO, "skin_outer_range"),
            one_of("outline_of", choices.Product, "skin_outline_known"),
            in_range("hours_to_spread", q.SKIN_SPREAD, "skin_spread_range"),
            in_range("fades_min", q.MARK_FADES, "skin_fades_range"),
            in_range("stays_min", q.MARK_STAYS, "skin_stays_range"),
            in_range("minutes_after_contact", q.WEALS_AFTER, "skin_weals_range"),
            in_range("days", q.SKIN_DAYS, "skin_days_range"),
            in_range("across_mm", q.SKIN_ACROSS, "skin_across_range"),
            in_range("pain_0_10", q.SKIN_PAIN, "skin_pain_range"),
            models.CheckConstraint(
                condition=Q(inner_mm__isnull=True)
                | Q(outer_mm__isnull=True)
                | Q(outer_mm__gt=F("inner_mm")),
                name="skin_outer_beyond_inner",
            ),
        ]
        triggers = [
            final_once_signed("skin_finding_final_once_signed", OF_ASSESSMENT),
            never_emptied("skin_finding_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Skin finding {self.pk}"
