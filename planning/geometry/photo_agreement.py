"""Whether a size measured on a photo and one read off a ruler can be the same."""

from planning.geometry.photo import Sized
from planning.geometry.photo_error import LINE_READ_MM


def contradicts(photo: Sized, ruler_mm: float) -> bool:
    """Further apart than the photo's stated error and the reading of a ruler together (mm)."""
    return abs(photo.value - ruler_mm) > photo.error + LINE_READ_MM
