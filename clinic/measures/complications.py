"""How many stomas of a hundred had a complication, by kind."""

from __future__ import annotations

from typing import Any

from django.contrib.postgres.aggregates import BoolOr
from django.db.models import BooleanField, Case, Count, Exists, OuterRef, Q, When

from clinic import formatting
from clinic.measures import small_numbers
from clinic.measures.measure_types import Line, Measure, of_share, unless_shown
from clinic.measures.period import Period
from clinic.visits.choices import Junction, Presence, SkinState, VisitState
from clinic.visits.models import Assessment, SkinFinding
from planning.statistics.incidence import damaged_kinds, per_hundred, retracted_at, source_of

KINDS = {
    "skin": "Skin damage",
    "leak": "Leak under the barrier",
    "retraction": "Retraction",
    "prolapse": "Prolapse",
    "bulge": "Parastomal bulge",
    "separation": "Mucocutaneous separation",
}


def complications(period: Period) -> Measure:
    """One line a kind: stomas in which it was looked for, in which it was found, per hundred."""
    counted = _counted(period)
    lines = tuple(
        _line(words, counted[f"{k}_looked"], counted[f"{k}_found"]) for k, words in KINDS.items()
    )
    limit = retracted_at()
    return Measure(
        key="complications",
        title="Complications per 100 stomas",
        rule=(
            "Stomas with a signed visit in these dates at which the thing was looked for; found if "
            "any of those visits found it. Each stoma counts once, whether it was new or there "
            f"before. Retraction: {formatting.mm(limit.value)} or lower. Leak: seen on the back of "
            "the used barrier. Interval: exact 95 %."
        ),
        not_counted=(
            "Stomas in which it was never recorded, either way; drafts; visits of other clinics. "
            "Veins, hard lumps and fistulas are no skin damage here. A bulge is no proven hernia."
        ),
        source=f"Clopper and Pearson 1934; limit of retraction: {source_of(limit)}",
        about="Complication",
        count_columns=("Stomas looked at", "Found in"),
        figure_columns=("Per 100 stomas",),
        units=("per 100 stomas",),
        lines=lines,
    )


def _line(words: str, looked: int, found: int) -> Line:
    figure = unless_shown(looked)
    if small_numbers.can_show(looked, found):
        figure = of_share(per_hundred(found, looked))
    told = small_numbers.some_of(looked, found) if looked else figure.words
    return Line(words, (small_numbers.count(looked), told), (figure,))


def _counted(period: Period) -> dict[str, int]:
    """One query: every stoma's visits folded into yes, no or never recorded, then counted."""
    seen = Assessment.objects.filter(
        visit__state=VisitState.SIGNED,
        visit__happened_at__gte=period.begins,
        visit__happened_at__lt=period.ends,
    )
    folded = seen.order_by().values("stoma").annotate(**{k: BoolOr(v) for k, v in _found().items()})
    asked: dict[str, Any] = {}
    for kind in KINDS:
        asked[f"{kind}_found"] = Count("stoma", filter=Q(**{kind: True}))
        asked[f"{kind}_looked"] = Count("stoma", filter=Q(**{f"{kind}__isnull": False}))
    return dict(folded.aggregate(**asked))


def _found() -> dict[str, Case]:
    """Per visit: found, looked and not found, or (None) not recorded."""
    damage = SkinFinding.objects.filter(assessment=OuterRef("pk"), kind__in=damaged_kinds())
    return {
        "skin": _case(
            Q(skin_assessment__state=SkinState.FINDINGS) & Q(Exists(damage)),
            Q(skin_assessment__state__in=SkinState.values),
        ),
        "leak": _case(Q(system__leak_hours__len__gt=0), Q(system__leak_hours__isnull=False)),
        "retraction": _case(
            Q(measurement__protrusion_mm__lte=retracted_at().value),
            Q(measurement__protrusion_mm__isnull=False),
        ),
        "prolapse": _case(
            Q(measurement__prolapse=Presence.PRESENT),
            Q(measurement__prolapse__in=Presence.values),
        ),
        "bulge": _case(Q(abdomen__bulge=Presence.PRESENT), Q(abdomen__bulge__in=Presence.values)),
        "separation": _case(
            Q(measurement__junction=Junction.SEPARATED),
            Q(measurement__junction__in=Junction.values),
        ),
    }


def _case(found: Q, recorded: Q) -> Case:
    return Case(
        When(found, then=True),
        When(recorded, then=False),
        default=None,
        output_field=BooleanField(null=True),
    )
