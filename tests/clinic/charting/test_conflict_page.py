"""Two editors of one draft, and a third save while the second chooses: no one's words are lost."""

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.charting.actions import settle
from clinic.visits.models import Assessment, ConflictCopy
from tests.clinic.charting.conflict_posts import chosen, marked
from tests.clinic.plans.signed_visits import accept, posted_page, reread, sign
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

AGAIN = "changed while you were choosing"


def send(client: Client, assessment: Assessment, **changes: Any) -> Any:
    """Save the page as it is now, with ``changes``."""
    return client.post(
        reverse("charting:save", args=[assessment.uuid]),
        posted_page(assessment, **changes).urlencode(),
        content_type="application/x-www-form-urlencoded",
        headers={"X-Autosave": "1"},
    )


@pytest.fixture
def assessment() -> Assessment:
    return AssessmentFactory(leaking=True)


@pytest.fixture
def colleague(assessment: Assessment) -> Client:
    client = Client()
    client.force_login(assessment.visit.clinician)
    return client


@pytest.fixture
def late(client: Client, assessment: Assessment, colleague: Client) -> Client:
    """A second nurse, whose save of another length and note came after the colleague's."""
    client.force_login(UserFactory(role="nurse"))
    mine = posted_page(assessment, stoma__length_mm="41", visit__note="Mine")
    send(colleague, assessment, stoma__length_mm="42", visit__note="Theirs")
    answer = client.post(
        reverse("charting:save", args=[assessment.uuid]),
        mine.urlencode(),
        content_type="application/x-www-form-urlencoded",
    )
    assert answer["Location"] == conflict_url(assessment)
    return client


def conflict_url(assessment: Assessment) -> str:
    return reverse("charting:conflict", args=[assessment.uuid])


def shown(client: Client, assessment: Assessment) -> str:
    return client.get(conflict_url(assessment)).content.decode()


def stored_note(assessment: Assessment) -> str:
    return reread(assessment).visit.note


def test_both_versions_become_one(late: Client, assessment: Assessment) -> None:
    page = shown(late, assessment)
    assert marked(page) == {}
    choice = chosen(page, stoma__length_mm="theirs", visit__note="mine")
    answer = late.post(conflict_url(assessment), choice, follow=True)
    assert "The two versions are merged." in answer.content.decode()
    assert stored_note(assessment) == "Mine"
    assert float(reread(assessment).measurement.length_mm) == 42
    assert not ConflictCopy.objects.exists()


def test_words_stored_since_are_shown_and_not_overwritten(
    late: Client, colleague: Client, assessment: Assessment
) -> None:
    page = shown(late, assessment)
    send(colleague, assessment, visit__note="Theirs, and pain at night since Sunday")
    choice = chosen(page, stoma__length_mm="mine", visit__note="mine")
    answer = late.post(conflict_url(assessment), choice)
    html = answer.content.decode()
    assert answer.status_code == 409
    assert AGAIN in html
    assert "pain at night since Sunday" in html
    assert "Before: Theirs" in html
    assert marked(html) == {"stoma-length_mm": "mine"}
    assert stored_note(assessment) == "Theirs, and pain at night since Sunday"
    assert float(reread(assessment).measurement.length_mm) == 42
    assert ConflictCopy.objects.get().data["visit-note"] == ["Mine"]
    # Chosen again, from what is there now.
    late.post(conflict_url(assessment), chosen(html, visit__note="theirs"))
    assert stored_note(assessment) == "Theirs, and pain at night since Sunday"
    assert float(reread(assessment).measurement.length_mm) == 41
    assert not ConflictCopy.objects.exists()


def test_a_field_that_became_different_since_is_asked_about(
    late: Client, colleague: Client, assessment: Assessment
) -> None:
    page = shown(late, assessment)
    send(colleague, assessment, output__volume_ml_24h="1900")
    answer = late.post(
        conflict_url(assessment), chosen(page, stoma__length_mm="mine", visit__note="mine")
    )
    assert answer.status_code == 409
    assert "New since you looked" in answer.content.decode()
    assert reread(assessment).output.volume_ml_24h == 1900
    assert ConflictCopy.objects.exists()


def test_an_entry_emptied_since_is_not_filled_in_again_unasked(
    late: Client, colleague: Client, assessment: Assessment
) -> None:
    page = shown(late, assessment)
    send(colleague, assessment, visit__note="")
    answer = late.post(
        conflict_url(assessment), chosen(page, stoma__length_mm="mine", visit__note="mine")
    )
    assert answer.status_code == 409
    assert marked(answer.content.decode()) == {"stoma-length_mm": "mine"}
    assert stored_note(assessment) == ""


def test_a_save_elsewhere_on_the_page_holds_no_one_up(
    late: Client, colleague: Client, assessment: Assessment
) -> None:
    """A colleague who types on does not keep the second from ever settling."""
    page = shown(late, assessment)
    copy = ConflictCopy.objects.get()
    copy.data["abdomen-contour"] = ["flat"]
    copy.save()
    send(colleague, assessment, abdomen__contour="flat")
    late.post(conflict_url(assessment), chosen(page, stoma__length_mm="mine", visit__note="mine"))
    assert stored_note(assessment) == "Mine"
    assert reread(assessment).abdomen.contour == "flat"


def test_ones_own_entry_replaced_from_another_window_is_shown_again(
    late: Client, assessment: Assessment
) -> None:
    page = shown(late, assessment)
    copy = ConflictCopy.objects.get()
    copy.data["visit-note"] = ["Mine, longer"]
    copy.save()
    choice = chosen(page, stoma__length_mm="mine", visit__note="theirs")
    answer = late.post(conflict_url(assessment), choice)
    html = answer.content.decode()
    assert answer.status_code == 409
    assert "Your entry has changed since you looked" in html
    assert "Another window of yours" in html
    assert ConflictCopy.objects.exists()


def test_a_choice_without_what_it_was_made_from_counts_for_nothing(
    late: Client, assessment: Assessment
) -> None:
    choice = chosen(shown(late, assessment), stoma__length_mm="mine", visit__note="mine")
    for broken in ("", "[", "7", '["a", "b"]', "[[1], [2]]", "null"):
        answer = late.post(conflict_url(assessment), choice | {"shown-visit-note": broken})
        assert answer.status_code == 409
    assert stored_note(assessment) == "Theirs"


def test_what_is_not_chosen_is_named(late: Client, assessment: Assessment) -> None:
    answer = late.post(
        conflict_url(assessment), chosen(shown(late, assessment), visit__note="mine")
    )
    html = answer.content.decode()
    assert answer.status_code == 422
    assert "Still to choose: 1" in html
    assert 'href="#difference-stoma-length_mm"' in html
    assert AGAIN not in html
    assert marked(html) == {"visit-note": "mine"}


def test_settling_twice_gets_a_message(late: Client, assessment: Assessment) -> None:
    choice = chosen(shown(late, assessment), stoma__length_mm="mine", visit__note="mine")
    late.post(conflict_url(assessment), choice)
    answer = late.post(conflict_url(assessment), choice, follow=True)
    assert answer.status_code == 200
    assert "already merged on another page" in answer.content.decode()


def test_signed_while_choosing_keeps_the_copy_beside_the_visit(
    late: Client, assessment: Assessment
) -> None:
    choice = chosen(shown(late, assessment), stoma__length_mm="mine", visit__note="mine")
    accept(assessment)
    sign(assessment)
    for answer in (
        late.post(conflict_url(assessment), choice, follow=True),
        late.get(conflict_url(assessment), follow=True),
    ):
        html = answer.content.decode()
        assert answer.status_code == 200
        assert "This visit was signed on" in html
        assert "Mine" in html
    assert stored_note(assessment) == "Theirs"
    assert ConflictCopy.objects.exists()


@pytest.mark.parametrize("where", ["save_page", "delete"])
def test_copy_and_save_go_together(
    where: str, late: Client, assessment: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whichever of the two fails, the copy is kept and nothing is saved."""

    def fails(*_: object, **__: object) -> None:
        raise RuntimeError

    choice = chosen(shown(late, assessment), stoma__length_mm="mine", visit__note="mine")
    monkeypatch.setattr(settle if where == "save_page" else ConflictCopy, where, fails)
    with pytest.raises(RuntimeError):
        late.post(conflict_url(assessment), choice)
    assert ConflictCopy.objects.get().data["visit-note"] == ["Mine"]
    assert stored_note(assessment) == "Theirs"


def test_words_about_advice_that_is_gone_are_shown(late: Client, assessment: Assessment) -> None:
    copy = ConflictCopy.objects.get()
    copy.data |= {"decision-gone-about": ["0"], "decision-gone-reason": ["She has tried it"]}
    copy.save()
    assert "She has tried it" in shown(late, assessment)
