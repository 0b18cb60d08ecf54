"""What signed visits found of one stoma, so that no one types it into the register again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import Exists, OuterRef
from django.utils import timezone

from clinic.complications.choices import Kind
from clinic.patients.models import Stoma
from clinic.plans.complication_rules import RETRACTED_MM, SKIN_DAMAGE
from clinic.visits.models import Assessment, SkinFinding

BULGE = "bulge"
WORDS = {
    Kind.RETRACTION.value: str(Kind.RETRACTION.label),
    Kind.PROLAPSE.value: str(Kind.PROLAPSE.label),
    Kind.SEPARATION.value: str(Kind.SEPARATION.label),
    BULGE: "Parastomal bulge (no proven hernia)",
    Kind.SKIN.value: str(Kind.SKIN.label),
}


@dataclass(frozen=True)
class Seen:
    """``found``: days of the visits that found it. ``now``: whether the last look did; None where
    no one ever looked."""

    kind: str
    words: str
    found: tuple[date, ...]
    looked: date | None
    now: bool | None


def seen_at_visits(stoma: Stoma) -> list[Seen]:
    """A line a finding. One query."""
    days: dict[str, list[tuple[date, bool]]] = {kind: [] for kind in WORDS}
    damage = SkinFinding.objects.filter(assessment=OuterRef("pk"), kind__in=SKIN_DAMAGE)
    visits = Assessment.objects.filter(stoma=stoma, visit__state="signed").order_by(
        "visit__happened_at", "pk"
    )
    rows = visits.annotate(damaged=Exists(damage)).values_list(
        "visit__happened_at", "measurement__protrusion_mm", "measurement__prolapse",
        "measurement__junction", "abdomen__bulge", "skin_assessment__state", "damaged",
    )  # fmt: skip
    for at, height, prolapse, junction, bulge, skin, damaged in rows:
        for kind, found in _found(height, prolapse, junction, bulge, skin, damaged=damaged):
            if found is not None:
                days[kind].append((timezone.localdate(at), found))
    return [_seen(kind, looks) for kind, looks in days.items()]


def _found(
    height: Decimal | None, prolapse: str | None, junction: str | None, bulge: str | None,
    skin: str | None, *, damaged: bool,
) -> Iterator[tuple[str, bool | None]]:  # fmt: skip
    """Found, not found, or None where it was not recorded."""
    yield Kind.RETRACTION, None if height is None else height <= RETRACTED_MM
    yield Kind.PROLAPSE, prolapse == "present" if prolapse else None
    yield Kind.SEPARATION, junction == "separated" if junction else None
    yield BULGE, bulge == "present" if bulge else None
    yield Kind.SKIN, skin == "findings" and damaged if skin else None


def _seen(kind: str, looks: list[tuple[date, bool]]) -> Seen:
    last = looks[-1] if looks else (None, None)
    return Seen(kind, WORDS[kind], tuple(day for day, found in looks if found), *last)
