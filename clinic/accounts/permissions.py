"""Who may do what: one table, one decorator, one question.

What a record's *state* allows (a signed visit never changes) is a policy of its own app.
"""

from collections.abc import Callable, Mapping
from enum import StrEnum
from functools import wraps
from types import MappingProxyType
from typing import Any

from django.contrib.auth.models import AnonymousUser
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponseBase

from clinic.accounts.models import Role, User


class Right(StrEnum):
    """One thing a role may do."""

    SEE_IDENTITY = "see identity"
    EDIT_IDENTITY = "edit identity"
    SEE_CLINICAL = "see clinical"
    RESTRICT = "restrict a record"
    LIFT_RESTRICTION = "lift a restriction"
    CHART = "chart"
    AGREE_KNOWN = "agree what is known"
    PRINT = "print"
    ANSWER_REFERRAL = "answer referral"
    MOVE_FOLLOW_UP = "move follow-up"
    KEEP_TASKS = "keep tasks"
    SEE_MEASURES = "see measures"
    READ_AUDIT = "read audit"
    MANAGE_USERS = "manage users"
    KEEP_CLINIC = "keep the clinic's details"


ROLE_RIGHTS: Mapping[Role, frozenset[Right]] = MappingProxyType(
    {
        Role.NURSE: frozenset(
            {
                Right.SEE_IDENTITY,
                Right.EDIT_IDENTITY,
                Right.SEE_CLINICAL,
                Right.RESTRICT,
                Right.CHART,
                Right.AGREE_KNOWN,
                Right.PRINT,
                Right.MOVE_FOLLOW_UP,
                Right.KEEP_TASKS,
            }
        ),
        Role.SURGEON: frozenset(
            {
                Right.SEE_IDENTITY,
                Right.SEE_CLINICAL,
                Right.AGREE_KNOWN,
                Right.PRINT,
                Right.ANSWER_REFERRAL,
                Right.KEEP_TASKS,
            }
        ),
        Role.DESK: frozenset(
            {Right.SEE_IDENTITY, Right.EDIT_IDENTITY, Right.PRINT, Right.MOVE_FOLLOW_UP}
        ),
        Role.LEAD: frozenset(
            {
                Right.SEE_IDENTITY,
                Right.SEE_CLINICAL,
                Right.RESTRICT,
                Right.LIFT_RESTRICTION,
                Right.PRINT,
                Right.MOVE_FOLLOW_UP,
                Right.KEEP_TASKS,
                Right.SEE_MEASURES,
                Right.READ_AUDIT,
                Right.MANAGE_USERS,
                Right.KEEP_CLINIC,
            }
        ),
    }
)


def rights_of(user: User | AnonymousUser) -> frozenset[Right]:
    """Everything ``user`` may do; nothing for somebody signed out or deactivated."""
    if not isinstance(user, User) or not user.is_active:
        return frozenset()
    return ROLE_RIGHTS[Role(user.role)]


def may(user: User | AnonymousUser, right: Right) -> bool:
    """Whether ``user`` has ``right``."""
    return right in rights_of(user)


def person_of(request: HttpRequest) -> User:
    """Who is signed in, for what each may do with their own account; 403 for no one."""
    if not isinstance(request.user, User):
        raise PermissionDenied
    return request.user


def needs(right: Right) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Guard a function view: 403 for anyone who lacks ``right``.

    The wrapped view carries ``right``, so that a test can compare every URL with one table.
    The refusal itself is written to the audit trail by the 403 page.
    """

    def decorate(view: Callable[..., HttpResponseBase]) -> Callable[..., HttpResponseBase]:
        @wraps(view)
        def guarded(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
            if not may(request.user, right):
                raise PermissionDenied
            return view(request, *args, **kwargs)

        guarded.right = right  # type: ignore[attr-defined]
        return guarded

    return decorate
