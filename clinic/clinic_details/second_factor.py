"""What a person's code app calls this clinic when a second factor is set up."""

from allauth.mfa.adapter import DefaultMFAAdapter
from django.conf import settings

from clinic.clinic_details.current import current


class NamedByClinic(DefaultMFAAdapter):
    """The clinic's own name, as its lead keeps it."""

    def get_totp_issuer(self) -> str:
        return current().name or str(settings.MFA_TOTP_ISSUER)
