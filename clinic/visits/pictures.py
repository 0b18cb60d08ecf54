"""Take a picture in: read it whole, turn it upright, write it anew without its metadata."""

import io

from django.core.exceptions import ValidationError
from PIL import Image, ImageOps, UnidentifiedImageError

MOST_BYTES = 20 * 1024 * 1024
MOST_PIXELS = 60_000_000
LONGEST_SIDE = 2400
KINDS = ("JPEG", "PNG")


def clean_picture(data: bytes) -> tuple[bytes, int, int]:
    """JPEG bytes, width and height. Raises ``ValidationError`` in words a nurse understands."""
    if len(data) > MOST_BYTES:
        raise ValidationError("This picture is larger than 20 MB.")
    try:
        with Image.open(io.BytesIO(data), formats=KINDS) as opened:
            if opened.width * opened.height > MOST_PIXELS:
                raise ValidationError("This picture has too many pixels to be a photo.")
            upright = ImageOps.exif_transpose(opened).convert("RGB")
    except UnidentifiedImageError as error:
        raise ValidationError("This file is not a JPEG or PNG picture.") from error
    except (OSError, SyntaxError, Image.DecompressionBombError) as error:
        raise ValidationError("This picture is damaged or cut short.") from error
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    out = io.BytesIO()
    # A new image holds pixels only: place, time and camera stay behind.
    upright.save(out, "JPEG", quality=88)
    return out.getvalue(), upright.width, upright.height
