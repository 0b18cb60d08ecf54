"""Saving a draft: what holds together is stored, the rest is kept as typed, nothing is lost."""

import uuid
from typing import Any

import pytest
from django.http import QueryDict
from django.utils import timezone

from clinic.accounts.models import User
from clinic.visits.actions.save import ConflictError, Saved, Turn, save_chart
from clinic.visits.chart import Chart
from clinic.visits.choices import FIRST_URINE_SIGNS
from clinic.visits.models import Assessment, ConflictCopy, OutputAssessment, SkinFinding, Visit
from clinic.visits.policies import NotAllowedNow
from clinic.visits.queries import with_parts
from tests.clinic.visits.posting import posted, with_row
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

ROW = "7d9e4c3a-2f3b-4a08-9a0e-55b1e3a1c8f4"


@pytest.fixture
def assessment() -> Assessment:
    return AssessmentFactory()


def save(
    assessment: Assessment,
    data: QueryDict | None = None,
    *,
    version: int | None = None,
    turn: Turn | None = None,
    by: User | None = None,
    **changes: Any,
) -> Saved:
    fresh = with_parts().get(pk=assessment.pk)
    return save_chart(
        assessment=fresh,
        data=data if data is not None else posted(fresh, **changes),
        turn=turn or Turn(fresh.visit.version if version is None else version),
        by=by or fresh.visit.clinician,
    )


def reread(assessment: Assessment) -> Assessment:
    return with_parts().get(pk=assessment.pk)


def test_an_untouched_page_writes_nothing(assessment: Assessment) -> None:
    saved = save(assessment)
    assert not saved.changed
    assert saved.errors == {}
    stored = reread(assessment)
    assert stored.visit.version == assessment.visit.version
    assert not hasattr(stored, "measurement")


@pytest.mark.parametrize("trait", ["well_fitting", "leaking", "prolapse", "hernia", "retracted"])
def test_a_page_opened_and_saved_again_changes_nothing(trait: str) -> None:
    """Every stored value survives the way to the page and back exactly."""
    saved = save(AssessmentFactory(**{trait: True}))
    assert saved.errors == {}
    assert not saved.changed


def test_a_value_is_stored_and_counts_a_version(assessment: Assessment) -> None:
    saved = save(assessment, stoma__length_mm="32,5", stoma__protrusion_mm="\u22124")
    assert saved.changed
    stored = reread(assessment)
    assert float(stored.measurement.length_mm) == 32.5
    assert float(stored.measurement.protrusion_mm) == -4
    assert stored.measurement.width_mm is None
    assert stored.visit.version == assessment.visit.version + 1


def test_what_cannot_be_a_number_is_kept_as_typed_beside_its_error(assessment: Assessment) -> None:
    saved = save(assessment, output__volume_ml_24h="about a litre", stoma__length_mm="30")
    assert saved.errors == {"output-volume_ml_24h": ["Write a number, such as 25."]}
    stored = reread(assessment)
    assert float(stored.measurement.length_mm) == 30
    shown = Chart(stored)
    shown.check()
    assert shown.parts["output"]["volume_ml_24h"].value() == "about a litre"
    assert shown.parts["output"].errors["volume_ml_24h"]


def test_a_corrected_entry_is_no_longer_pending(assessment: Assessment) -> None:
    save(assessment, output__volume_ml_24h="lots")
    assert reread(assessment).pending.count() == 1
    save(assessment, output__volume_ml_24h="900")
    stored = reread(assessment)
    assert stored.pending.count() == 0
    assert stored.output.volume_ml_24h == 900


def test_more_than_one_decimal_is_refused_and_not_rounded(assessment: Assessment) -> None:
    saved = save(assessment, stoma__length_mm="25.55")
    assert saved.errors["stoma-length_mm"] == ["At most one digit after the point."]
    assert not hasattr(reread(assessment), "measurement")


def test_a_row_sent_twice_is_one_row(assessment: Assessment) -> None:
    key = str(uuid.uuid4())
    for _ in range(2):
        data = posted(reread(assessment), skin__state="findings")
        if key not in data.getlist("finding-row"):
            with_row(data, "finding", key, kind="erosion", hours=[5, 6], outer_mm="20")
        save(assessment, data)
    row = SkinFinding.objects.get()
    assert (str(row.pk), row.hours) == (key, [5, 6])


def test_a_row_that_left_the_page_is_removed(assessment: Assessment) -> None:
    key = str(uuid.uuid4())
    data = posted(assessment, skin__state="findings")
    save(assessment, with_row(data, "finding", key, kind="erythema", hours=[6]))
    data = posted(reread(assessment), skin__state="intact")
    data.setlist("finding-row", [])
    save(assessment, data)
    assert not SkinFinding.objects.exists()


def test_a_row_ticked_for_removal_comes_back_when_unticked(assessment: Assessment) -> None:
    key = str(uuid.uuid4())
    values = {"kind": "erythema", "hours": [6]}
    save(assessment, with_row(posted(assessment, skin__state="findings"), "finding", key, **values))
    data = posted(reread(assessment), skin__state="")
    data[f"finding-{key}-remove"] = "on"
    save(assessment, data)
    assert not SkinFinding.objects.exists()
    save(
        assessment,
        with_row(posted(reread(assessment), skin__state="findings"), "finding", key, **values),
    )
    assert SkinFinding.objects.get().pk == uuid.UUID(key)


def test_a_half_typed_row_is_kept_as_typed(assessment: Assessment) -> None:
    key = str(uuid.uuid4())
    data = with_row(posted(assessment, skin__state="findings"), "finding", key, kind="ulcer")
    saved = save(assessment, data)
    assert saved.errors[f"finding-{key}-hours"] == ["Tick at least one hour."]
    shown = Chart(reread(assessment))
    assert [form["kind"].value() for form in shown.rows["finding"].forms] == ["ulcer"]


def test_another_rows_id_cannot_be_taken_over(assessment: Assessment) -> None:
    """A row of another visit is neither read nor moved by posting its id here."""
    other = AssessmentFactory(leaking=True)
    stolen = str(other.skin_findings.get().pk)
    data = posted(assessment, skin__state="findings")
    data = with_row(data, "finding", stolen, kind="ulcer", hours=[1])
    saved = save(assessment, data)
    assert saved.errors["skin-state"]  # no finding of this visit was posted
    assert not assessment.skin_findings.exists()
    assert other.skin_findings.get().kind != "ulcer"


def test_the_second_of_two_saves_is_warned_and_kept(assessment: Assessment) -> None:
    first_opened = assessment.visit.version
    save(assessment, stoma__length_mm="30")
    second = UserFactory()
    data = posted(assessment, stoma__length_mm="35", output__volume_ml_24h="800")
    with pytest.raises(ConflictError):
        save(assessment, data, version=first_opened, by=second)
    copy = ConflictCopy.objects.get()
    assert copy.by == second
    assert copy.data["output-volume_ml_24h"] == ["800"]
    assert float(reread(assessment).measurement.length_mm) == 30


def test_a_page_that_goes_on_saving_keeps_one_copy(assessment: Assessment) -> None:
    save(assessment, stoma__length_mm="30")
    page = uuid.uuid4()
    for number, typed in enumerate(("3", "35"), start=1):
        with pytest.raises(ConflictError):
            save(assessment, turn=Turn(0, page, number), stoma__length_mm=typed)
    assert ConflictCopy.objects.get().data["stoma-length_mm"] == ["35"]


def test_a_signed_visit_takes_no_save(assessment: Assessment) -> None:
    Visit.objects.filter(pk=assessment.visit_id).update(
        state="signed", signed_at=timezone.now(), signed_by=assessment.visit.clinician
    )
    with pytest.raises(NotAllowedNow):
        save(assessment, stoma__length_mm="30")


def test_every_save_names_its_author(assessment: Assessment) -> None:
    nurse = UserFactory()
    save(assessment, by=nurse, stoma__length_mm="30")
    assert reread(assessment).visit.saved_by == nurse


def test_parts_of_another_colour_and_products_begun_are_stored_once(
    assessment: Assessment,
) -> None:
    for _ in range(2):
        data = posted(assessment, stoma__colour="pink_red")
        with_row(data, "colourpart", ROW, colour="dusky", hours=[3, 4])
        with_row(data, "begun", ROW, product="ring", days="0")
        save(assessment, data)
    stored = reread(assessment)
    assert [(p.colour, p.hours) for p in stored.colour_rows.all()] == [("dusky", [3, 4])]
    assert [(b.product, b.days) for b in stored.begun_rows.all()] == [("ring", 0)]


def test_a_dark_part_counts_though_the_colour_of_the_rest_is_still_asked(
    assessment: Assessment,
) -> None:
    data = with_row(posted(assessment), "colourpart", ROW, colour="dusky", hours=[3])
    assert save(assessment, data).errors["stoma-colour"]
    assert [part.colour for part in reread(assessment).colour_rows.all()] == ["dusky"]


def test_words_of_the_time_of_one_list_stay_where_they_were_ticked(assessment: Assessment) -> None:
    """They are shown, and saving the page again neither drops nor moves them."""
    OutputAssessment.objects.create(assessment=assessment, urine_signs=["blood", "clots"])
    saved = save(assessment, output__pain_0_10="2")
    assert saved.errors == {}
    assert reread(assessment).output.urine_signs == ["blood", "clots"]
    offered = [
        str(value) for value, _ in saved.chart.parts["output"]["urine_signs"].field.widget.choices
    ]
    assert offered == [*FIRST_URINE_SIGNS, "clots", "none"]
