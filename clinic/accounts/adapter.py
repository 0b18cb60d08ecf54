"""How staff sign in: no sign-up, no leaving the site, failures on record."""

from typing import Any

from allauth.account.adapter import DefaultAccountAdapter
from allauth.core.internal.ratelimit import get_ip
from django.http import HttpRequest
from django.urls import reverse

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
        """What failed sign-ins are counted by; one count for all without an address, which is
        the unspecified one."""
        return client_address(request) or "::"

    def _get_login_attempts_cache_key(self, request: HttpRequest, **credentials: Any) -> str:
        """Failures of one name from one address, since a lead last let the person try again."""
        key = super()._get_login_attempts_cache_key(request, **credentials)
        known = User.objects.filter(username__iexact=credentials.get("username") or "")
        released = known.values_list("sign_in_releases", flat=True).first() or 0
        return f"{key}:{get_ip(request)}:{released}"

    def get_password_change_redirect_url(self, request: HttpRequest) -> str:
        return reverse("clinic_day:day")

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
