"""Pictures: pixels come in, everything else stays out."""

import io
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from PIL import Image

from clinic.visits import pictures
from clinic.visits.pictures import clean_picture


def jpeg(size: tuple[int, int] = (60, 40), **save: Any) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", size, (200, 90, 80)).save(out, "JPEG", **save)
    return out.getvalue()


def test_metadata_is_gone_and_the_picture_stands_upright() -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # turned a quarter
    exif[0x010F] = "A camera"
    data, width, height = clean_picture(jpeg(exif=exif))
    assert (width, height) == (40, 60)
    assert not Image.open(io.BytesIO(data)).getexif()
    assert b"A camera" not in data


def test_a_large_picture_is_made_smaller() -> None:
    _, width, height = clean_picture(jpeg((5000, 1000)))
    assert max(width, height) == pictures.LONGEST_SIDE


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"%PDF-1.7 not a picture", "not a JPEG or PNG"),
        (jpeg()[:300], "damaged or cut short"),
        (b"", "not a JPEG or PNG"),
    ],
)
def test_what_is_no_picture_is_refused_in_words(data: bytes, words: str) -> None:
    with pytest.raises(ValidationError, match=words):
        clean_picture(data)


def test_a_bomb_is_refused_before_it_is_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "MOST_PIXELS", 100)
    with pytest.raises(ValidationError, match="too many pixels"):
        clean_picture(jpeg())


def test_a_file_beyond_the_limit_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "MOST_BYTES", 10)
    with pytest.raises(ValidationError, match="larger than 20 MB"):
        clean_picture(jpeg())
