"""Pictures drawn for the demo, and the languages and sizes of its sheets."""

import io
from decimal import Decimal
from random import Random

import pytest
from django.utils import timezone
from PIL import Image

from clinic.patients.models import Patient, SheetLanguage, StomaKind
from clinic.visits.choices import SkinKind
from clinic.visits.models import Photo, PhotoMeasurement
from fixtures.invented_clinic.load import Loaded
from fixtures.invented_clinic.picture import BAR, BAR_MM, MIDDLE, PER_MM, draw
from fixtures.invented_clinic.usual import chart, seen
from tests.clinic.invented_clinic.record import seen as visits_of

pytestmark = pytest.mark.django_db


# --- drawing ----------------------------------------------------------------------------------
def test_a_picture_is_drawn_to_scale() -> None:
    drawing = draw(chart(Random(1), StomaKind.ILEOSTOMY, 34, 28, 20, ""), Random(2))  # noqa: S311
    across = [x for x, _ in drawing.edge]
    down = [y for _, y in drawing.edge]
    assert (max(down) - min(down)) / PER_MM == pytest.approx(34)
    assert (max(across) - min(across)) / PER_MM == pytest.approx(28)
    assert (BAR[1][1] - BAR[0][1]) / PER_MM == BAR_MM


def test_damaged_skin_is_drawn_at_its_hours() -> None:
    sound = chart(Random(1), StomaKind.ILEOSTOMY, 30, 30, 20, "")  # noqa: S311
    raw = sound.but(skin=(seen(SkinKind.EROSION, [6], 0, 14),))
    below = (int(MIDDLE[0]), int(MIDDLE[1] + (15 + 7) * PER_MM))
    above = (int(MIDDLE[0]), int(MIDDLE[1] - (15 + 7) * PER_MM))
    before, after = (
        Image.open(io.BytesIO(draw(one, Random(2)).data))  # noqa: S311
        for one in (sound, raw)
    )
    assert _green(after, below) < _green(before, below) - 50
    assert abs(_green(after, above) - _green(before, above)) < 25


def _green(picture: Image.Image, place: tuple[int, int]) -> int:
    """How green: red skin is little, sound skin much."""
    x, y = place
    found = picture.crop((x - 4, y - 4, x + 5, y + 5)).resize((1, 1)).getpixel((0, 0))
    assert isinstance(found, tuple)
    return int(found[1])


def test_what_was_not_measured_is_not_drawn() -> None:
    with pytest.raises(ValueError, match="measured"):
        draw(chart(Random(1), StomaKind.ILEOSTOMY, 30, 30, 20, "").but(measurement=None), Random(2))  # noqa: S311


# --- in the record ----------------------------------------------------------------------------
def test_every_picture_says_that_it_is_drawn(loaded: Loaded) -> None:
    captions = Photo.objects.values_list("caption", flat=True)
    assert len(captions) >= 8
    assert all("drawn for the demo" in caption for caption in captions)


@pytest.mark.parametrize(("family", "dates"), [("Weathervane", 5), ("Regadera", 3)])
def test_pictures_of_several_dates_are_side_by_side(
    loaded: Loaded, family: str, dates: int
) -> None:
    """Each bears the moment of its visit, not that of loading."""
    photos = Photo.objects.filter(assessment__visit__patient__family_name=family)
    taken = {photo.at for photo in photos.select_related("assessment__visit")}
    assert taken <= {one.visit.happened_at for one in visits_of(family)}
    assert len(taken) == dates
    assert all(moment < timezone.now() for moment in taken)


def test_one_picture_was_measured_and_filled_in(loaded: Loaded) -> None:
    kept = PhotoMeasurement.objects.get()
    size = kept.photo.assessment.measurement
    assert abs(size.length_mm - 34) <= Decimal("0.2")
    assert abs(size.width_mm - 30) <= Decimal("0.2")
    length, error = kept.result["length_mm"]
    assert abs(length - 34) < error


# --- sheets -----------------------------------------------------------------------------------
def test_every_language_of_the_sheets_is_somebodys(loaded: Loaded) -> None:
    spoken = set(Patient.objects.values_list("sheet_language", flat=True))
    assert spoken == set(SheetLanguage.values)
