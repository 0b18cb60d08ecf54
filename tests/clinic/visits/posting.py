"""What the visit page would post for one assessment, with some fields changed."""

from typing import Any

from django.http import QueryDict

from clinic.visits.chart import Chart
from clinic.visits.merging import as_posted
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts


def posted(assessment: Assessment, **changes: Any) -> QueryDict:
    """``stoma__length_mm="25"`` stands for the field ``stoma-length_mm``; a list for several."""
    data = QueryDict(mutable=True)
    for name, values in as_posted(Chart(with_parts().get(pk=assessment.pk))).items():
        data.setlist(name, values)
    for name, value in changes.items():
        values = value if isinstance(value, list) else [value]
        data.setlist(name.replace("__", "-"), [str(v) for v in values])
    data.setdefault("version", str(assessment.visit.version))
    return data


def with_row(data: QueryDict, rows: str, key: str, /, **values: Any) -> QueryDict:
    """``data`` with one more row of ``rows`` under id ``key``."""
    data.appendlist(f"{rows}-row", key)
    for name, value in values.items():
        data.setlist(
            f"{rows}-{key}-{name}",
            [str(v) for v in value] if isinstance(value, list) else [str(value)],
        )
    return data
