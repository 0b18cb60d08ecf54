"""A view that carries a form out once: pressed twice or sent again, the second is led where the
first was, and nothing is made twice."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from functools import wraps
from typing import Any, Final
from uuid import UUID, uuid4, uuid5

from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.crypto import salted_hmac

from clinic.once.models import SentForm
from clinic.once.typed import typed_fields

FIELD: Final = "once"
#: Posted with every form, said by none.
SILENT = ("csrfmiddlewaretoken", FIELD)
DONE_ONCE = "This was sent twice. It was done once."

View = Callable[..., HttpResponse]


def once(view: View) -> View:
    """Carry out what a page posts in one transaction, and no second time for the same key.

    Innermost of the decorators: who has no right to the page has sent nothing. What the answer
    leads to is remembered; an answer that leads nowhere (a form with errors) is not, unless
    ``made`` says that something was made.
    """

    @wraps(view)
    def guarded(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        if request.method != "POST":
            return view(request, *args, **kwargs)
        with transaction.atomic():
            sent, is_first = _sent(request)
            if not is_first:
                return _again(request, sent)
            answer = view(request, *args, **kwargs)
            leads_to = getattr(answer, "once_leads_to", answer.get("Location", ""))
            if leads_to:
                sent.leads_to = leads_to
                sent.save(update_fields=["leads_to"])
            else:
                sent.delete()
        return answer

    guarded.once = True  # type: ignore[attr-defined]
    return guarded


def made(answer: HttpResponse, leads_to: str) -> HttpResponse:
    """``answer`` leads nowhere, or elsewhere; sent again, the page goes on to ``leads_to``. ""
    where nothing was made: then the next sending is tried as the first."""
    answer.once_leads_to = leads_to  # type: ignore[attr-defined]
    return answer


def once_key(request: HttpRequest) -> UUID:
    """The id of what this sending makes: of its key and its sender, so that an id that somebody
    thinks up is never another row's."""
    return uuid5(_key(request), str(request.user.pk))


def _key(request: HttpRequest) -> UUID:
    """The key that was posted; a new one where none was."""
    found: UUID | None = getattr(request, "once_key", None)
    if found is None:
        found = _posted_key(request) or uuid4()
        request.once_key = found  # type: ignore[attr-defined]
    return found


def _posted_key(request: HttpRequest) -> UUID | None:
    try:
        return UUID(request.POST.get(FIELD, ""))
    except ValueError:
        return None


def _sent(request: HttpRequest) -> tuple[SentForm, bool]:
    """Two at one moment meet at the key, which is unique: the later waits for the earlier."""
    by, said = int(request.user.pk or 0), _hash(request)
    sent, is_first = SentForm.objects.get_or_create(
        key=_key(request), by_id=by, defaults={"said": said}
    )
    if not is_first and sent.said != said and _cannot_be_given_back(request):
        request.once_key = uuid4()  # type: ignore[attr-defined]
        return SentForm.objects.create(key=_key(request), by_id=by, said=said), True
    return sent, is_first


def _cannot_be_given_back(request: HttpRequest) -> bool:
    """Files chosen again, or a password, of which no page asks what to do with them."""
    return bool(request.FILES) or any("password" in name for name in request.POST)


def _again(request: HttpRequest, sent: SentForm) -> HttpResponse:
    if sent.said == _hash(request):
        messages.info(request, DONE_ONCE)
        return redirect(sent.leads_to)
    page = {
        "typed": typed_fields(request.POST),
        "posted": list(_posted(request)),
        "saved_at": sent.at,
        "leads_to": sent.leads_to,
    }
    return render(request, "once/other_words.html", page, status=409)


def _posted(request: HttpRequest) -> Iterator[tuple[str, str]]:
    for name, values in request.POST.lists():
        if name not in SILENT:
            yield from ((name, value) for value in values)


def _hash(request: HttpRequest) -> str:
    """Of the address and all that was sent to it; keyed, so that no short word can be guessed."""
    given = [request.get_full_path(), *(f"{name}={value}" for name, value in _posted(request))]
    for name, files in request.FILES.lists():
        given += [f"{name}:{hashlib.sha256(b''.join(one.chunks())).hexdigest()}" for one in files]
        for one in files:
            one.seek(0)
    return salted_hmac("clinic.once", "\0".join(given), algorithm="sha256").hexdigest()
