"""Save a repeat beside the visit's own figures: atomic, named, audited, once."""

from collections.abc import Mapping
from datetime import datetime
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import HttpRequest
from django.utils import timezone

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.repeats.models import FIGURES, RepeatMeasurement
from clinic.visits.models import Assessment, Visit

Figures = Mapping[str, Decimal | None]

ANOTHER_DAY = "A repeat is charted on the day of its visit, while neither reading is known."
NO_PAIR = "Write at least one figure that the visit has too."


def why_no_repeat(visit: Visit, at: datetime) -> str:
    """Why none can be charted now; "" where one can. A signed visit takes one on its own day: it
    changes nothing of the visit."""
    if visit.state == "discarded":
        return "This visit was discarded."
    if timezone.localdate(visit.happened_at) != timezone.localdate(at):
        return ANOTHER_DAY
    return ""


@transaction.atomic
def save_repeat(
    *,
    assessment: Assessment,
    key: UUID,
    values: Mapping[str, Any],
    own: Figures,
    by: User,
    at: datetime,
    request: HttpRequest | None = None,
) -> RepeatMeasurement:
    """``values``: what was measured and by whom. ``own``: the visit's own figures by the names of
    ``FIGURES``, None where it has none. Sent again with the same key it is the same repeat.

    Raises ``ValidationError`` on another day than the visit's, or without any pair.
    """
    visit = Visit.objects.select_for_update().get(pk=assessment.visit_id)
    if found := RepeatMeasurement.objects.filter(assessment=assessment, uuid=key).first():
        return found
    if refused := why_no_repeat(visit, at):
        raise ValidationError(refused)
    row = RepeatMeasurement(
        assessment=assessment, uuid=key, recorded_by=by, recorded_at=at, **values
    )
    for name in FIGURES:
        setattr(row, f"first_{name}", own[name])
        if own[name] is None:
            setattr(row, name, None)
    if all(getattr(row, name) is None for name in FIGURES):
        raise ValidationError(NO_PAIR)
    row.full_clean()
    row.save()
    record(
        request_or_actor=request or by,
        action="charted repeat",
        subject=row,
        patient=visit.patient,
        detail="the same nurse" if row.same_nurse else "",
    )
    return row
