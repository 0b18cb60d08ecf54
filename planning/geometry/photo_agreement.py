"""Whether a size measured on a photo and one read off a ruler can be the same."""

from planning.geometry.photo import Sized
from planning.geometry.photo_error import LINE_READ_MM
from planning.inputs.usable_numbers import check_numbers


def contradicts(photo: Sized, ruler_mm: float) -> bool:
    """Further apart than the photo's stated error and the reading of a ruler together (mm)."""
    check_numbers(photo=(photo.value, photo.error), ruler_mm=ruler_mm, low=0)
    return abs(photo.value - ruler_mm) > photo.error + LINE_READ_MM
