"""The clinic's details as they are now: the lead's row, or the environment's first values."""

from django.conf import settings

from clinic.clinic_details.models import THE_ROW, ClinicDetails
from clinic.one_reading import once_a_reading


def current() -> ClinicDetails:
    """The stored row. Until the lead has saved one: what the environment says, not stored."""
    return stored() or from_environment()


@once_a_reading
def stored() -> ClinicDetails | None:
    """The lead's row, if there is one."""
    return ClinicDetails.objects.filter(pk=THE_ROW).first()


def from_environment() -> ClinicDetails:
    """The first values."""
    return ClinicDetails(
        name=settings.CLINIC_NAME,
        phone=settings.CLINIC_PHONE,
        hours=settings.CLINIC_HOURS,
        hours_translated=dict(settings.CLINIC_HOURS_TRANSLATED),
        paper_size=settings.PAPER_SIZE,
        closed_weekdays=sorted(settings.CLINIC_CLOSED_WEEKDAYS),
    )
