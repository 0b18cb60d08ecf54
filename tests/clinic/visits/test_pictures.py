"""Pictures: pixels come in, everything else stays out."""

import importlib
import io
import struct
import zlib
from typing import Any

import pillow_heif
import pytest
from django.core.exceptions import ValidationError
from PIL import Image, ImageCms, ImageFile

from clinic.visits import pictures
from clinic.visits.pictures import clean_picture, thumbnail_of

RED = (200, 90, 80)


def saved(
    kind: str = "JPEG", size: tuple[int, int] = (60, 40), mode: str = "RGB", **save: Any
) -> bytes:
    out = io.BytesIO()
    colour: Any = {"L": 120, "CMYK": (0, 150, 150, 20)}.get(mode, RED)
    Image.new(mode, size, colour).save(out, kind, **save)
    return out.getvalue()


def heic(size: tuple[int, int] = (64, 48), **save: Any) -> bytes:
    out = io.BytesIO()
    pillow_heif.from_pillow(Image.new("RGB", size, RED)).save(out, **save)
    return out.getvalue()


def opened(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data))


def exif(orientation: int = 1) -> Image.Exif:
    found = Image.Exif()
    found[0x0112] = orientation
    found[0x010F] = "A camera"
    gps = found.get_ifd(0x8825)
    gps[1], gps[2] = "N", (52.0, 31.0, 12.0)
    return found


def display_p3_like() -> bytes:
    """A profile that is not sRGB, with a name in it: Lab is what every colour library can make."""
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB")).tobytes()


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_metadata_is_gone_and_the_picture_is_upright(kind: str) -> None:
    got = clean_picture(saved(kind, exif=exif(6)))  # turned a quarter
    assert (got.width, got.height) == (40, 60)
    for data in (got.image, got.thumbnail):
        assert not opened(data).getexif()
        assert set(opened(data).info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
        assert b"A camera" not in data


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_is_as_it_was_seen(orientation: int) -> None:
    """The red corner is where a viewer that honours the tag shows it (EXIF 2.32, tag 0x0112)."""
    picture = Image.new("RGB", (64, 48), "white")
    picture.paste("red", (0, 0, 24, 24))
    out = io.BytesIO()
    picture.save(out, "JPEG", exif=exif(orientation), quality=95)
    got = opened(clean_picture(out.getvalue()).image).convert("RGB")
    right, low = got.width - 6, got.height - 6
    corner = {1: (6, 6), 2: (right, 6), 3: (right, low), 4: (6, low)}
    corner |= {5: (6, 6), 6: (right, 6), 7: (right, low), 8: (6, low)}
    red, green, _ = got.getpixel(corner[orientation])  # type: ignore[misc]
    assert (red > 200, green < 80) == (True, True)


def test_a_phones_heic_is_taken_upright_without_its_place() -> None:
    data = heic(exif=exif(6).tobytes(), quality=90)
    assert b"A camera" in data
    got = clean_picture(data)
    assert (got.width, got.height) == (48, 64)
    assert opened(got.image).format == "JPEG"
    assert b"A camera" not in got.image
    assert not opened(got.image).getexif()


def test_comments_xmp_and_profiles_stay_out() -> None:
    data = saved(comment=b"Sorrel W.", xmp=b"<x:xmpmeta>Sorrel W.</x:xmpmeta>")
    got = clean_picture(data)
    assert b"Sorrel" in data
    assert b"Sorrel" not in got.image + got.thumbnail
    assert b"xmpmeta" not in got.image


def test_a_profile_that_does_not_fit_is_left_out_and_the_picture_kept() -> None:
    got = clean_picture(saved(icc_profile=display_p3_like()))
    assert "icc_profile" not in opened(got.image).info
    assert opened(got.image).convert("RGB").getpixel((5, 5)) == pytest.approx(RED, abs=4)


def test_colours_are_those_the_profile_means() -> None:
    """A profile with red and blue exchanged shows what is stored as blue in red."""
    swapped = Image.new("RGB", (40, 40), (40, 60, 220))
    profile = _exchanged_primaries()
    out = io.BytesIO()
    swapped.save(out, "PNG", icc_profile=profile)
    red, _, blue = opened(clean_picture(out.getvalue()).image).convert("RGB").getpixel((9, 9))  # type: ignore[misc]
    assert red > blue + 100


def _exchanged_primaries() -> bytes:
    """The sRGB profile with the tags of its red and blue colorant exchanged."""
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    table = profile[128 : 128 + 4 + 12 * struct.unpack(">I", profile[128:132])[0]]
    red, blue = table.index(b"rXYZ"), table.index(b"bXYZ")
    table[red : red + 4], table[blue : blue + 4] = b"bXYZ", b"rXYZ"
    profile[128 : 128 + len(table)] = table
    return bytes(profile)


def test_a_large_picture_is_made_smaller_and_has_a_small_one() -> None:
    got = clean_picture(saved(size=(5000, 1000)))
    assert (got.width, got.height) == (pictures.LONGEST_SIDE, 480)
    assert max(opened(got.thumbnail).size) == pictures.THUMBNAIL_SIDE
    assert len(got.thumbnail) < 60_000
    assert max(opened(thumbnail_of(got.image)).size) == pictures.THUMBNAIL_SIDE


def test_a_large_jpeg_is_never_unpacked_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    """Draft mode: half the sides are a quarter of the memory."""
    seen = []
    before = Image.Image.thumbnail

    def watched(self: Image.Image, *args: Any, **kwargs: Any) -> None:
        seen.append(self.size)
        before(self, *args, **kwargs)

    monkeypatch.setattr(Image.Image, "thumbnail", watched)
    clean_picture(saved(size=(6000, 5000)))
    assert seen[0] == (3000, 2500)


@pytest.mark.parametrize("mode", ["L", "CMYK"])
def test_grey_and_print_colours_are_taken(mode: str) -> None:
    assert opened(clean_picture(saved(mode=mode)).image).mode == "RGB"


def test_what_is_see_through_becomes_white() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (20, 20), (0, 0, 0, 0)).save(out, "PNG")
    assert opened(clean_picture(out.getvalue()).image).getpixel((4, 4)) == (255, 255, 255)


def test_sixteen_bits_of_grey_are_taken() -> None:
    out = io.BytesIO()
    Image.new("I;16", (20, 20), 30_000).save(out, "PNG")
    assert clean_picture(out.getvalue()).width == 20


SVG = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
HTML = b"<!doctype html><script>alert(1)</script>"


def gif() -> bytes:
    out = io.BytesIO()
    frames = [Image.new("RGB", (9, 9), c) for c in ("red", "blue")]
    frames[0].save(out, "GIF", save_all=True, append_images=frames[1:])
    return out.getvalue()


def moving_png() -> bytes:
    out = io.BytesIO()
    frames = [Image.new("RGB", (9, 9), c) for c in ("red", "blue")]
    frames[0].save(out, "PNG", save_all=True, append_images=frames[1:])
    return out.getvalue()


def png_bomb(side: int) -> bytes:
    """A PNG whose head promises ``side`` × ``side`` pixels in a few bytes."""

    def chunk(name: bytes, body: bytes) -> bytes:
        return (
            struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        )

    head = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    body = zlib.compress(b"\0" * 100_000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "not a JPEG, PNG or HEIC"),
        (b"%PDF-1.7 not a picture", "not a JPEG, PNG or HEIC"),
        (SVG, "not a JPEG, PNG or HEIC"),
        (HTML, "not a JPEG, PNG or HEIC"),
        (saved("BMP"), "not a JPEG, PNG or HEIC"),
        (saved("TIFF"), "not a JPEG, PNG or HEIC"),
        (saved("WEBP"), "not a JPEG, PNG or HEIC"),
        (gif(), "This is a GIF"),
        (moving_png(), "moving picture"),
        (b"\0\0\0\x18ftyphevc" + bytes(40), "moving picture"),
        (saved(size=(900, 700))[:4000], "damaged or cut short"),
        (saved("PNG", size=(900, 700))[:900], "damaged or cut short"),
        (heic((400, 300))[:-200], "damaged or cut short"),
        (saved()[:300], "damaged or cut short"),
        (png_bomb(6_000), "too many pixels"),
        (png_bomb(12_000), "too many pixels"),
        (png_bomb(60_000), "too many pixels"),
    ],
)
def test_what_is_no_picture_is_refused_in_words(data: bytes, words: str) -> None:
    with pytest.raises(ValidationError, match=words):
        clean_picture(data)


def test_half_a_picture_is_refused_whatever_another_library_has_set() -> None:
    """Printing to PDF makes Pillow take cut files, for the whole process."""
    importlib.import_module("weasyprint")
    assert ImageFile.LOAD_TRUNCATED_IMAGES
    with pytest.raises(ValidationError, match="cut short"):
        clean_picture(saved(size=(900, 700))[:4000])
    assert ImageFile.LOAD_TRUNCATED_IMAGES


@pytest.mark.parametrize("payload", [SVG, HTML], ids=["svg", "html"])
def test_what_hides_behind_a_picture_stays_out(payload: bytes) -> None:
    """A file that is a picture and a page at once."""
    got = clean_picture(saved() + payload)
    assert b"<script" not in got.image + got.thumbnail
    commented = clean_picture(saved(comment=payload))
    assert b"<script" not in commented.image


def test_a_bomb_is_refused_before_it_is_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "MOST_PIXELS", {"JPEG": 100, "PNG": 100, "HEIF": 100})

    def never(self: Image.Image) -> None:
        raise AssertionError("unpacked")

    made = [saved(), saved("PNG"), heic()]
    monkeypatch.setattr(Image.Image, "load", never)
    for data in made:
        with pytest.raises(ValidationError, match="too many pixels"):
            clean_picture(data)


def test_a_file_beyond_the_limit_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "MOST_BYTES", 10)
    with pytest.raises(ValidationError, match="larger than 20 MB"):
        clean_picture(saved())
