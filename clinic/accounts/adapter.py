"""How staff sign in: no sign-up, no leaving the site, failures on record."""

from typing import Any

from allauth.account.adapter import DefaultAccountAdapter
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.requests import client_address


class StaffAccountAdapter(DefaultAccountAdapter):
    """Accounts are made by the clinic lead, never by a visitor."""

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False

    def is_safe_url(self, url: str | None) -> bool:
        """Only a path on this site: ``//host`` and backslashes lead elsewhere."""
        return bool(
            url
            and url.startswith("/")
            and not url.startswith(("//", "/\\\\"))
            and super().is_safe_url(url)
        )

    def get_client_ip(self, request: HttpRequest) -> str:
        """What failed sign-ins are counted by; one count for all without an address."""
        return client_address(request) or "unknown"

    def authentication_failed(self, request: HttpRequest, **credentials: Any) -> None:
        """Record the failure; a name no one has is not kept (it may be a typed password)."""
        name = credentials.get("username") or ""
        user = User.objects.filter(username__iexact=name).first() if name else None
        record(
            request_or_actor=request,
            action="sign-in failed",
            subject=user or "user",
            detail="known user" if user else "unknown user",
        )
