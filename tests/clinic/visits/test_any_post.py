"""Whatever is posted, a save answers: it stores, or says what is wrong. It never breaks."""

import uuid

import pytest
from django.http import QueryDict
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from clinic.visits.actions.save import Turn, save_chart
from clinic.visits.chart import Chart
from clinic.visits.merging import as_posted
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts
from tests.clinic.visits.posting import posted
from tests.factories.visits import AssessmentFactory

NAMES = st.deferred(lambda: st.sampled_from(sorted(FIELDS)))
FIELDS: dict[str, list[str]] = {}
ODD = [
    "",
    "0",
    "-1",
    "5",
    "25.5",
    "301",
    "9999999999",
    "x",
    "none",
    "present",
    "\u0664",
    "2025-05-01",
]


def fields_of(assessment: Assessment) -> dict[str, list[str]]:
    """Every field of the page with the values its choices offer."""
    chart = Chart(with_parts().get(pk=assessment.pk))
    offered = {
        form.add_prefix(name): [str(value) for value, _ in getattr(field, "choices", ())]
        for _, form in chart.forms()
        for name, field in form.fields.items()
    }
    return {name: offered.get(name, []) for name in as_posted(chart)}


def typed(post: QueryDict, name: str, offered: list[str]) -> list[str]:
    """What a person could have typed: several ticks, or one value in one box."""
    several = bool(offered) and "" not in offered
    values = post.getlist(name) if several else post.getlist(name)[-1:]
    return [value for value in values if value]


@pytest.mark.django_db
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_any_post_is_answered_and_nothing_typed_is_lost(data: st.DataObject) -> None:
    assessment = AssessmentFactory(leaking=True)
    FIELDS.update(fields_of(assessment))
    post = posted(assessment)
    for name in data.draw(st.lists(NAMES, min_size=1, max_size=8, unique=True)):
        values = st.lists(st.sampled_from([*FIELDS[name], *ODD]), max_size=3, unique=True)
        post.setlist(name, data.draw(values))
    if data.draw(st.booleans()):
        key = str(uuid.uuid4())
        post.appendlist("finding-row", key)
        post.setlist(f"finding-{key}-kind", [data.draw(st.sampled_from(["ulcer", "", "y"]))])
        post.setlist(f"finding-{key}-hours", data.draw(st.lists(st.sampled_from(["1", "13"]))))
    saved = save_chart(
        assessment=assessment,
        data=post,
        turn=Turn(assessment.visit.version),
        by=assessment.visit.clinician,
    )
    stored = with_parts().get(pk=assessment.pk)
    shown = as_posted(Chart(stored))
    for name in saved.errors:
        if name in post and name in shown:
            assert [v for v in shown[name] if v] == typed(post, name, FIELDS.get(name, ["1"]))
