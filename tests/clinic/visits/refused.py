"""Entries that the visit page refuses: what is posted, beside which field, in which words."""

from typing import Any

from django.http import QueryDict

from clinic.visits.models import Assessment
from tests.clinic.visits.posting import posted, with_row

#: The id of the row that a case of ``ROWS_REFUSED`` adds.
KEY = "5a0c8e0e-1d8a-4a57-8f0c-0b7a3c0d9e21"

REFUSED: dict[str, tuple[dict[str, Any], str, str]] = {
    "a length that is no number": (
        {"stoma__length_mm": "wide"},
        "stoma-length_mm",
        "Write a number",
    ),
    "a length below zero": ({"stoma__length_mm": "-3"}, "stoma-length_mm", "At least 0.1 mm"),
    "a length of zero": ({"stoma__length_mm": "0"}, "stoma-length_mm", "At least 0.1 mm"),
    "a length beyond any stoma": (
        {"stoma__length_mm": "301"},
        "stoma-length_mm",
        "At most 300 mm",
    ),
    "off-centre without an hour": (
        {"stoma__lumen": "off_centre"},
        "stoma-lumen_hour",
        "which hour",
    ),
    "an hour for a central lumen": (
        {"stoma__lumen": "centre", "stoma__lumen_hour": "6"},
        "stoma-lumen_hour",
        "clear the hour",
    ),
    "separated without hours": (
        {"stoma__junction": "separated"},
        "stoma-separation_hours",
        "which hours",
    ),
    "hours of a join that is intact": (
        {"stoma__junction": "intact", "stoma__separation_hours": [3]},
        "stoma-separation_hours",
        "choose Separated",
    ),
    "prolapse details without a prolapse": (
        {"stoma__prolapse": "none", "stoma__prolapse_extra_mm": "30"},
        "stoma-prolapse_extra_mm",
        "choose Present",
    ),
    "eleven radii": (
        {f"stoma__radii_mm_{h}": "15" for h in range(1, 12)},
        "stoma-radii_mm",
        "still empty: 12",
    ),
    "convex depth of a flat barrier": (
        {"system__profile": "flat", "system__convex_depth_mm": "5"},
        "system-convex_depth_mm",
        "convex barrier",
    ),
    "leaked nowhere and at six": (
        {"system__leak_hours": ["none", "6"]},
        "system-leak_hours",
        "together with others",
    ),
    "a bulge without hours": ({"abdomen__bulge": "present"}, "abdomen-bulge_hours", "which hours"),
    "findings without a finding": ({"skin__state": "findings"}, "skin-state", "Add the findings"),
    "creases without a crease": (
        {"abdomen__creases": "present"},
        "abdomen-creases",
        "Add the creases",
    ),
    "a part not looked at but filled in": (
        {"whole__not_looked_at": ["output"], "output__volume_ml_24h": "800"},
        "whole-not_looked_at-output",
        "not looked at",
    ),
    "leaks of no barriers": ({"system__leaks": "3"}, "system-leak_barriers", "Fill in both"),
    "more leaks than barriers": (
        {"system__leaks": "11", "system__leak_barriers": "10"},
        "system-leaks",
        "more leaks than barriers",
    ),
    "a class of depth of a flat barrier": (
        {"system__profile": "flat", "system__convex_depth": "deep"},
        "system-convex_depth",
        "convex barrier",
    ),
    "a growing prolapse where there is none": (
        {"stoma__prolapse": "none", "stoma__prolapse_growing": "yes"},
        "stoma-prolapse_growing",
        "choose Present",
    ),
    "fascia seen in an intact join": (
        {"stoma__junction": "intact", "stoma__separation_fascia_seen": "yes"},
        "stoma-separation_fascia_seen",
        "choose Separated",
    ),
    "a hard bulge where there is none": (
        {"abdomen__bulge": "none", "abdomen__bulge_hard": "yes"},
        "abdomen-bulge_hard",
        "choose Present",
    ),
    "weeks of no pregnancy": (
        {"person__pregnant": "no", "person__pregnant_weeks": "20"},
        "person-pregnant_weeks",
        "belong to a pregnancy",
    ),
    "a temperature in Fahrenheit": (
        {"person__temperature_c": "100.4"},
        "person-temperature_c",
        "At most 45 °C",
    ),
    "no symptom of infection, and one": (
        {"output__infection_symptoms": ["none", "rigors"]},
        "output-infection_symptoms",
        "together with others",
    ),
    "wounds without a wound": ({"skin__wounds": "present"}, "skin-wounds", "Add the wounds"),
    "pain of eleven": ({"output__pain_0_10": "11"}, "output-pain_0_10", "At most 10"),
    "a visit next year": (
        {"visit__happened_at": "2099-01-01T10:00"},
        "visit-happened_at",
        "future",
    ),
    "a visit before birth": (
        {"visit__happened_at": "1900-01-01T10:00"},
        "visit-happened_at",
        "before the patient's birth",
    ),
    "a visit before the surgery": (
        {"visit__happened_at": "2024-03-13T10:00"},
        "visit-happened_at",
        "before this stoma's surgery",
    ),
    "a separation deeper than any": (
        {
            "stoma__junction": "separated",
            "stoma__separation_hours": [3],
            "stoma__separation_depth_mm": "301",
        },
        "stoma-separation_depth_mm",
        "At most 300 mm",
    ),
    "a day on which nothing was begun": (
        {"system__begun_days": "3"},
        "system-begun_product",
        "Which product",
    ),
    "a visit without a date": ({"visit__happened_at": ""}, "visit-happened_at", "date and time"),
    "a word nobody offered": ({"stoma__colour": "tartan"}, "stoma-colour", "not one of"),
}

ROWS_REFUSED: dict[str, tuple[str, dict[str, Any], str, str]] = {
    "a finding without a kind": ("finding", {"hours": [6]}, "kind", "What kind"),
    "a finding without hours": ("finding", {"kind": "ulcer"}, "hours", "at least one hour"),
    "outer inside inner": (
        "finding",
        {"kind": "ulcer", "hours": [6], "inner_mm": "20", "outer_mm": "10"},
        "outer_mm",
        "further out",
    ),
    "hour thirteen": ("finding", {"kind": "ulcer", "hours": [13]}, "hours", "not one of"),
    "a wound without hours": ("wound", {"distance_mm": "4"}, "hours", "at least one hour"),
    "another stoma without hours": ("otherstoma", {"rests": "yes"}, "hours", "at least one hour"),
    "a circumstance while still on": (
        "wear",
        {"on": "2025-05-01", "circumstance": "overfull"},
        "off",
        "When did it come off",
    ),
    "a part of no colour": ("colourpart", {"hours": [3]}, "colour", "Which colour"),
    "a part without hours": ("colourpart", {"colour": "dusky"}, "hours", "at least one hour"),
    "no product begun": ("begun", {"days": "3"}, "product", "Which product"),
    "a crease without hours": ("crease", {"depth_mm": "4"}, "hours", "at least one hour"),
    "off before on": (
        "wear",
        {"on": "2025-05-04", "off": "2025-05-01", "reason": "leak"},
        "off",
        "before",
    ),
    "off without a reason": ("wear", {"on": "2025-05-01", "off": "2025-05-04"}, "reason", "Why"),
    "a reason while still on": ("wear", {"on": "2025-05-01", "reason": "leak"}, "off", "When did"),
    "put on after the visit": ("wear", {"on": "2025-07-01"}, "on", "after the visit"),
}

#: What else a page with a row of this kind says.
STATES = {
    "finding": {"skin__state": "findings"},
    "crease": {"abdomen__creases": "present"},
    "wound": {"skin__wounds": "present"},
    "otherstoma": {"skin__other_stomas": "present"},
}


def with_refused_row(assessment: Assessment, case: str) -> QueryDict:
    """The page of ``assessment`` with the row of one case of ``ROWS_REFUSED``."""
    kind, values, _, _ = ROWS_REFUSED[case]
    return with_row(posted(assessment, **STATES.get(kind, {})), kind, KEY, **values)
