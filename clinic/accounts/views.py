"""Own security; users, for the clinic lead; pages the sign-in package expects but we close."""

from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from allauth.account.adapter import get_adapter
from allauth.mfa.models import Authenticator
from allauth.usersessions.models import UserSession
from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from clinic.accounts import actions, first_steps, lock
from clinic.accounts.first_steps import Step
from clinic.accounts.forms import NewUserForm, PasswordForm, UnlockForm, UserForm
from clinic.accounts.models import User
from clinic.accounts.own_sessions import end_one, end_others, sessions_of
from clinic.accounts.people import people
from clinic.accounts.permissions import ROLE_RIGHTS, Right, needs, person_of
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
        "idle_minutes": settings.SESSION_COOKIE_AGE // 60,
        "longest_hours": int(settings.SESSION_LONGEST.total_seconds()) // 3600,
        "sessions": sessions_of(request),
    }
    return render(request, "accounts/security.html", page)


@require_POST
def session_end(request: HttpRequest, session: int) -> HttpResponse:
    """One place where one is signed in oneself."""
    row = get_object_or_404(UserSession, pk=session, user=person_of(request))
    end_one(request, row)
    messages.success(request, "Signed out there.")
    return redirect("accounts:security")


@require_POST
def sessions_end_others(request: HttpRequest) -> HttpResponse:
    """Every place where one is signed in oneself, but this one."""
    end_others(request, person_of(request))
    messages.success(request, "Signed out everywhere else.")
    return redirect("accounts:security")


@require_safe
def first(request: HttpRequest) -> HttpResponse:
    """What is to do before anything else, if it is not done yet."""
    steps = first_steps.due(request)
    if not steps:
        return redirect("clinic_day:day")
    page = {"password": Step.PASSWORD in steps, "factor": Step.SECOND_FACTOR in steps}
    return render(request, "accounts/first_steps.html", page)


@require_POST
def lock_now(request: HttpRequest) -> HttpResponse:
    """This session opens nothing until it is unlocked."""
    lock.lock(request, person_of(request))
    return redirect(f"{reverse('account_locked')}?{urlencode({'next': _next(request)})}")


@form_page
def locked(request: HttpRequest) -> HttpResponse:
    """Asks for the password; then back to the page that was left. Where nothing is locked, a
    page that was covered asks here whether it is still the same person's."""
    person = person_of(request)
    form = UnlockForm(posted(request))
    if request.method == "POST":
        try:
            if form.is_valid() and lock.unlock(request, form.cleaned_data["password"]):
                return redirect(_next(request))
        except ValidationError as refused:
            form.add_error("password", refused)
        else:
            if not request.user.is_authenticated:
                messages.error(request, "Too many wrong passwords: signed out.")
                return redirect(f"{reverse('account_login')}?{urlencode({'next': _next(request)})}")
            if form.is_valid():
                form.add_error("password", "This is not your password.")
    page = {"form": form, "next": _next(request), "person": person}
    return render(request, "accounts/locked.html", page)


def _next(request: HttpRequest) -> str:
    """The page to come back to; never one elsewhere."""
    given = request.POST.get("next") or request.GET.get("next")
    return given if given and get_adapter().is_safe_url(given) else "/"


@require_safe
@needs(Right.MANAGE_USERS)
def users(request: HttpRequest) -> HttpResponse:
    """Everybody who may or once might sign in, and what each role may do."""
    page = {
        "users": people(),
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


@require_POST
@needs(Right.MANAGE_USERS)
def let_try_again(request: HttpRequest, user: UUID) -> HttpResponse:
    person = get_object_or_404(User, uuid=user)
    actions.let_try_again(user=person, by=request)
    messages.success(request, f"{person.display_name} may try to sign in again at once.")
    return redirect("accounts:users")


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
