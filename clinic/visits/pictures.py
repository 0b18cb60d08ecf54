"""Take a picture in: read it whole, turn it upright, write it again without its metadata.

A new file is made of the pixels alone: place, time, camera, colour profile, embedded small
pictures and whatever else was hidden in or behind the old one stay out.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from threading import Lock
from typing import Final

import pillow_heif
from django.core.exceptions import ValidationError
from PIL import Image, ImageCms, ImageFile, ImageOps, UnidentifiedImageError

pillow_heif.register_heif_opener(thumbnails=False, depth_images=False, aux_images=False)

MOST_BYTES: Final = 20 * 1024 * 1024
#: Unpacked, a pixel takes 3 to 8 bytes; phones make up to 50 million of them (design values).
#: A PNG is unpacked whole and as deep as it comes, so fewer are let in.
MOST_PIXELS: Final = {"JPEG": 60_000_000, "HEIF": 60_000_000, "PNG": 30_000_000}
LONGEST_SIDE: Final = 2400
THUMBNAIL_SIDE: Final = 360
#: A colour profile larger than this is none.
MOST_PROFILE: Final = 1024 * 1024

KINDS: Final = "JPEG, PNG or HEIC"
NO_PICTURE: Final = f"This file is not a {KINDS} picture."
DAMAGED: Final = (
    "This picture is damaged or cut short. Send or save it again, then choose it again."
)
MOVING: Final = "This is a moving picture. Choose a still one."
TOO_LARGE: Final = "This picture is larger than 20 MB."
TOO_MANY: Final = "This picture has too many pixels to be a photo; save it smaller and try again."

#: File brands of ISO/IEC 23008-12 (HEIF) that hold a sequence, not a still picture.
SEQUENCES: Final = {b"hevc", b"hevx", b"hevm", b"hevs", b"msf1"}

#: One picture is unpacked at a time, so that many at once cannot use up the memory.
_unpacking = Lock()


@dataclass(frozen=True)
class Picture:
    """JPEG bytes, upright, sRGB; ``width`` and ``height`` are those of ``image`` in pixels."""

    image: bytes
    thumbnail: bytes
    width: int
    height: int


def clean_picture(data: bytes) -> Picture:
    """The picture made again. Raises ``ValidationError`` in words a nurse understands."""
    if len(data) > MOST_BYTES:
        raise ValidationError(TOO_LARGE)
    _refuse_sequences(data)
    with _unpacking, _whole_files_only():
        upright = _unpacked(data)
        image = _as_jpeg(upright, quality=88)
        width, height = upright.size
        upright.thumbnail((THUMBNAIL_SIDE, THUMBNAIL_SIDE))
        return Picture(image, _as_jpeg(upright, quality=80), width, height)


@contextmanager
def _whole_files_only() -> Iterator[None]:
    """Other users of the library (the printing of PDF) make it fill what is missing with grey."""
    before = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = before


def thumbnail_of(image: bytes) -> bytes:
    """A small picture of one already in the record. Raises ``ValidationError``."""
    return clean_picture(image).thumbnail


def _refuse_sequences(data: bytes) -> None:
    if data[4:8] == b"ftyp" and data[8:12] in SEQUENCES:
        raise ValidationError(MOVING)
    if data[:6] in {b"GIF87a", b"GIF89a"}:
        raise ValidationError(f"This is a GIF. {NO_PICTURE}")


def _begins_well(data: bytes) -> bool:
    """Whether it starts as a picture that we take does."""
    still = data[4:8] == b"ftyp" and data[8:12] in {b"heic", b"heix", b"mif1"}
    return still or data.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n"))


def _unpacked(data: bytes) -> Image.Image:
    """RGB pixels, upright, no longer than ``LONGEST_SIDE``."""
    try:
        with Image.open(io.BytesIO(data), formats=tuple(MOST_PIXELS)) as opened:
            _refuse_before_unpacking(opened)
            # A JPEG of many pixels is unpacked at a half, a quarter or an eighth at once.
            opened.draft(None, (LONGEST_SIDE, LONGEST_SIDE))
            opened.load()
            profile = opened.info.get("icc_profile")
            upright = ImageOps.exif_transpose(opened)
    except UnidentifiedImageError as error:
        raise ValidationError(DAMAGED if _begins_well(data) else NO_PICTURE) from error
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise ValidationError(TOO_MANY) from error
    except (OSError, SyntaxError, ValueError, EOFError, RuntimeError) as error:
        raise ValidationError(DAMAGED) from error
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    return _in_srgb(_on_white(upright), profile)


def _refuse_before_unpacking(opened: Image.Image) -> None:
    kind = "JPEG" if opened.format == "MPO" else str(opened.format)
    if opened.width * opened.height > MOST_PIXELS[kind]:
        raise ValidationError(TOO_MANY)
    # Phones put a second still into a JPEG or HEIC (depth, brightness): the first one counts.
    if kind == "PNG" and getattr(opened, "is_animated", False):
        raise ValidationError(MOVING)


def _on_white(picture: Image.Image) -> Image.Image:
    """What is see-through would turn black."""
    if picture.mode in {"RGBA", "LA", "PA"} or "transparency" in picture.info:
        picture = picture.convert("RGBA")
        ground = Image.new("RGBA", picture.size, "white")
        return Image.alpha_composite(ground, picture).convert("RGB")
    return picture.convert("RGB")


def _in_srgb(picture: Image.Image, profile: bytes | None) -> Image.Image:
    """The colours as the profile means them: how red a stoma looks is a finding.

    A profile that cannot be read is left out, as every viewer does.
    """
    if not profile or len(profile) > MOST_PROFILE:
        return picture
    try:
        meant = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        converted = ImageCms.profileToProfile(picture, meant, ImageCms.createProfile("sRGB"))
    except (ImageCms.PyCMSError, OSError, ValueError):
        return picture
    return picture if converted is None else converted


def _as_jpeg(picture: Image.Image, *, quality: int) -> bytes:
    # Pixels only: what ``info`` remembers of the old file would be written along.
    bare = Image.new("RGB", picture.size)
    bare.paste(picture)
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=quality)
    return out.getvalue()
