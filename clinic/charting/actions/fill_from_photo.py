"""Fill in a visit's measurement from a photo, once somebody has confirmed it."""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.http import HttpRequest, QueryDict

from clinic.accounts.models import User
from clinic.charting.page import ChartPage, decision_forms, save_page
from clinic.plans import photo_confirmed
from clinic.plans.photo_measurement import MeasureForm, values_of, words_of
from clinic.visits.actions.photo import keep_measurement
from clinic.visits.actions.save import Turn
from clinic.visits.chart import Chart
from clinic.visits.merging import as_posted
from clinic.visits.models import Assessment, Photo
from clinic.visits.queries import with_parts

#: The fields a photo fills.
FILLED = (
    "stoma-length_mm",
    "stoma-width_mm",
    "stoma-axis_hour",
    *(f"stoma-radii_mm_{hour}" for hour in range(1, 13)),
)


class ChangedMeanwhile(Exception):  # noqa: N818 - not a fault, another person's entry
    """The fields were filled in differently since the page was opened; nothing was written."""


def current_values(assessment: Assessment) -> dict[str, list[str]]:
    """The fields a photo fills, as the visit page would show them."""
    posted = as_posted(Chart(assessment))
    return {name: posted.get(name, []) for name in FILLED}


def seen(now: dict[str, list[str]]) -> str:
    """``current_values`` in one line, to tell later whether it still holds."""
    return "|".join(",".join(now[name]) for name in FILLED)


@transaction.atomic
def fill_from_photo(
    *,
    photo: Photo,
    form: MeasureForm,
    radii: bool,
    seen_before: str,
    by: User,
    request: HttpRequest | None = None,
) -> ChartPage:
    """Keep the marks with the photo and save the sizes through the chart's own action.

    Raises ``ChangedMeanwhile`` where the fields no longer hold what was seen, ``ConflictError``
    where somebody saves at the same moment, ``NotAllowedNow`` once signed.
    """
    assert form.measured is not None, "only a form that measured something is filled in"  # noqa: S101
    stored = with_parts().get(pk=photo.assessment_id)
    if seen(current_values(stored)) != seen_before:
        raise ChangedMeanwhile
    kind = form.cleaned_data["kind"]
    result: dict[str, Any] = form.measured.as_dict()
    marks = form.kept
    if "proposed" in marks:
        result["proposed_words"] = photo_confirmed.words(marks["proposed"])
    keep_measurement(
        photo=photo,
        marks=marks,
        result={**result, "words": words_of(form.measured, kind)},
        rule_set=form.measured.rules,
        by=by,
        request=request,
    )
    data = QueryDict(mutable=True)
    everything = as_posted(Chart(stored), decision_forms(stored))
    for name, values in (everything | values_of(form.measured, radii=radii)).items():
        data.setlist(name, values)
    return save_page(stored, data=data, turn=Turn(stored.visit.version), by=by, request=request)
