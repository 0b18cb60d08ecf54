"""However a danger sign is worded, the sheet says beside it how soon somebody must look."""

from __future__ import annotations

import pytest

from clinic.documents.how_soon import LOOK_TITLES
from clinic.documents.patient_language.translator import ENGLISH
from clinic.referrals.models import Urgency
from planning import Findings, recommend
from planning.inputs.findings import SkinKind
from tests.clinic.documents import made_visits, paper
from tests.planning.builders import seen, well

pytestmark = pytest.mark.django_db
BLISTERS = "Your skin reacts badly to a product. A doctor must look at it."
HOW_SOON = {
    Urgency.SAME_DAY: "seen today",
    Urgency.TELEPHONE: "telephone call is needed today",
    Urgency.DAYS: "within 3 days",
    Urgency.TWO_WEEKS: "within 2 weeks",
    Urgency.ROUTINE: "next time",
}


def blistering(*, moist: bool) -> Findings:
    return well(skin=(seen(SkinKind.BLISTERS, product_outline=True, moist=moist),))


@pytest.mark.parametrize(
    ("moist", "soon"),
    [
        (True, "You need to be seen within 3 days"),
        (False, "You need to be seen within 2 weeks"),
    ],
)
def test_blisters_say_on_paper_how_soon(
    monkeypatch: pytest.MonkeyPatch, moist: bool, soon: str
) -> None:
    plan = recommend(blistering(moist=moist))
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    sheet = made_visits.sheet_of(made)
    (said,) = [group for group in sheet.look_at if BLISTERS in group.lines]
    assert said.title == soon
    text = paper.whole_text(made_visits.printed(sheet))
    assert text.index(soon) < text.index(BLISTERS)


def test_every_urgency_short_of_an_emergency_has_words_for_how_soon() -> None:
    assert set(LOOK_TITLES) == set(Urgency) - {Urgency.EMERGENCY}
    for urgency, words in HOW_SOON.items():
        assert words in ENGLISH.translate(LOOK_TITLES[urgency])
