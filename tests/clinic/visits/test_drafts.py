"""Where and with what a browser keeps what it could not send of a draft."""

from base64 import b64decode

import pytest

from clinic.visits.presenters.unsent_entries import sealing
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


def test_one_for_each_person_and_draft() -> None:
    nurses = UserFactory.create_batch(2)
    drafts = AssessmentFactory.create_batch(2)
    made = [sealing(nurse, draft) for nurse in nurses for draft in drafts]
    assert len({one.key for one in made}) == len({one.place for one in made}) == 4
    assert made[0] == sealing(nurses[0], drafts[0])


def test_the_place_tells_nothing() -> None:
    nurse, draft = UserFactory.create(), AssessmentFactory.create()
    key, place = sealing(nurse, draft)
    assert len(b64decode(key)) == 32
    assert place not in key
    assert str(draft.uuid)[:8] not in place
