"""Own security; users, for the clinic lead; pages the sign-in package expects but we close."""

from typing import Any
from uuid import UUID

from allauth.mfa.models import Authenticator
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from clinic.accounts import actions
from clinic.accounts.forms import NewUserForm, PasswordForm, UserForm
from clinic.accounts.models import User
from clinic.accounts.permissions import ROLE_RIGHTS, Right, needs
from clinic.once.sending import once
from clinic.requests import posted

form_page = require_http_methods(["GET", "HEAD", "POST"])


@require_safe
def security(request: HttpRequest) -> HttpResponse:
    """How the person signed in protects their account."""
    kinds = set(Authenticator.objects.filter(user=request.user).values_list("type", flat=True))
    page = {
        "has_code": Authenticator.Type.TOTP in kinds,
        "has_key": Authenticator.Type.WEBAUTHN in kinds,
    }
    return render(request, "accounts/security.html", page)


@require_safe
@needs(Right.MANAGE_USERS)
def users(request: HttpRequest) -> HttpResponse:
    """Everybody who may or once might sign in, and what each role may do."""
    page = {
        "users": User.objects.order_by("-is_active", "last_name", "first_name"),
        "roles": [
            (role.label, [right for right in Right if right in rights])
            for role, rights in ROLE_RIGHTS.items()
        ],
    }
    return render(request, "accounts/users.html", page)


@form_page
@needs(Right.MANAGE_USERS)
@once
def user_add(request: HttpRequest) -> HttpResponse:
    form = NewUserForm(posted(request))
    if request.method == "POST" and form.is_valid():
        try:
            user = actions.add_user(by=request, **form.cleaned_data)
        except ValidationError as refused:
            form.add_error(None, refused)
        else:
            messages.success(request, f"{user.display_name} may now sign in as {user.username}.")
            return redirect("accounts:users")
    return _form(request, form, "Add a person", "Add")


@form_page
@needs(Right.MANAGE_USERS)
@once
def user_change(request: HttpRequest, user: UUID) -> HttpResponse:
    person = get_object_or_404(User, uuid=user)
    name = person.display_name
    form = UserForm(posted(request), instance=person)
    if request.method == "POST" and form.is_valid():
        try:
            actions.change_user(user=person, by=request, **form.cleaned_data)
        except ValidationError as refused:
            form.add_error(None, refused)
        else:
            messages.success(request, "Saved.")
            return redirect("accounts:users")
    return _form(request, form, "Change a person", "Save", heading=name, person=person)


@form_page
@needs(Right.MANAGE_USERS)
@once
def user_password(request: HttpRequest, user: UUID) -> HttpResponse:
    person = get_object_or_404(User, uuid=user)
    form = PasswordForm(posted(request), user=person)
    if request.method == "POST" and form.is_valid():
        actions.set_password(user=person, by=request, **form.cleaned_data)
        messages.success(request, "Password set. Hand it over in person; they change it at once.")
        return redirect("accounts:users")
    heading = f"New password for {person.display_name}"
    return _form(request, form, "New password", "Set the password", heading=heading)


@login_not_required
@require_safe
def closed(request: HttpRequest) -> HttpResponse:
    """There is no sign-up and no e-mail: the clinic lead adds people."""
    return render(request, "account/signup_closed.html", status=404)


@login_not_required
@require_safe
def forgotten(request: HttpRequest) -> HttpResponse:
    """Nothing goes out by e-mail: the clinic lead sets a new password."""
    return render(request, "account/forgotten.html")


def _form(
    request: HttpRequest,
    form: Any,
    title: str,
    button: str,
    *,
    heading: str = "",
    person: User | None = None,
) -> HttpResponse:
    """``title`` lands in the browser's history, so only ``heading`` names anybody."""
    page = {
        "form": form,
        "words": {"title": title, "heading": heading, "button": button},
        "cancel": reverse("accounts:users"),
        "person": person,
    }
    return render(request, "accounts/form.html", page)
