"""Saves that come late, early or twice: what counts as a second person, and what does not."""

import threading
import time

import pytest
from django.db import connection

from clinic.visits.actions import save as saving
from clinic.visits.actions.save import ConflictError, Saved, save_chart
from clinic.visits.chart import Chart
from clinic.visits.history import with_parts
from clinic.visits.merging import differences
from clinic.visits.models import Assessment
from tests.clinic.visits.posting import posted, with_row
from tests.factories.visits import AssessmentFactory


def reread(assessment: Assessment) -> Assessment:
    return with_parts().get(pk=assessment.pk)


def save(assessment: Assessment, version: int, **changes: str) -> Saved:
    fresh = reread(assessment)
    data = posted(fresh, **changes)
    return save_chart(assessment=fresh, data=data, version=version, by=fresh.visit.clinician)


@pytest.mark.django_db
def test_a_late_repetition_is_no_conflict() -> None:
    assessment = AssessmentFactory.create()
    version = assessment.visit.version
    save(assessment, version, stoma__length_mm="30")
    again = save(assessment, version, stoma__length_mm="30.0")
    assert not again.changed
    assert not assessment.conflict_copies.exists()


@pytest.mark.django_db
def test_a_late_difference_is_one() -> None:
    assessment = AssessmentFactory.create()
    version = assessment.visit.version
    save(assessment, version, stoma__length_mm="30")
    with pytest.raises(ConflictError):
        save(assessment, version, stoma__length_mm="31")


@pytest.mark.django_db(transaction=True)
def test_overtaking_the_save_before_it() -> None:
    """Sent for the version that a save still under way will make, it waits for that one."""
    assessment = AssessmentFactory.create()
    version = assessment.visit.version
    early = posted(reread(assessment), stoma__length_mm="30", stoma__width_mm="28")

    def forerunner() -> None:
        time.sleep(saving.WAIT * 3)
        save(assessment, version, stoma__length_mm="30")
        connection.close()

    thread = threading.Thread(target=forerunner)
    thread.start()
    stale = reread(assessment)
    saved = save_chart(
        assessment=stale, data=early, version=version + 1, by=assessment.visit.clinician
    )
    thread.join()
    assert saved.visit.version == version + 2
    assert reread(assessment).measurement.width_mm == 28


@pytest.mark.django_db
def test_differences_name_the_row() -> None:
    """A finding that only one side has is told by its number and the words of its choices."""
    assessment = AssessmentFactory.create()
    key = "0d9f2f0e-6b0c-4a3e-9d0e-3f1c1e6b7a11"
    mine = with_row(posted(reread(assessment)), "finding", key, kind="ulcer", hours=[6])
    found = differences(dict(mine.lists()), Chart(reread(assessment)))
    words = {difference.label: difference.mine_words for difference in found}
    assert words["Finding 1: Kind"] == "Ulcer"
    assert words["Finding 1: Hours"] == "6"
