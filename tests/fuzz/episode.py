"""A few requests that belong together: a page opened, its form sent, the page opened again; or one
request that no page would make."""

from __future__ import annotations

import io
import re
import sys
import traceback
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from random import Random
from typing import Any, Final
from uuid import UUID

from django import forms
from django.conf import settings
from django.core.signals import got_request_exception
from django.db import connection, transaction
from django.urls import NoReverseMatch, reverse
from PIL import Image

from clinic.accounts.models import Role
from clinic.accounts.permissions import ROLE_RIGHTS
from tests.fuzz import wire
from tests.fuzz.clinic import Clinic
from tests.fuzz.pages import Form, Page, pressed
from tests.fuzz.values import USUAL, some

ROOT: Final = Path(__file__).resolve().parents[2]
ROLES: Final = (*[Role.NURSE] * 5, *[Role.LEAD] * 3, Role.SURGEON, Role.DESK)
#: Papers take a hundred times as long as pages: less often.
PAPERS: Final = re.compile(r"documents:(?!preview|edit|supplies|codes)")
#: Figures drawn, and counts of the whole clinic.
DRAWN: Final = re.compile(r"trends:|measures:")
#: The page with most on it.
VISIT: Final = re.compile(r"charting:(chart|save|conflict)")
SIGNING_IN: Final = "/sign-in/"
#: Not ours but the sign-in package's; some of ours are closed.
SIGN_IN: Final = re.compile(r"mfa_|account_")


@dataclass(frozen=True)
class Answer:
    """One request and what came back; ``fault`` names what broke, and where. ``turned_away``: it
    was led to the pages of signing in."""

    asked: str
    status: int
    fault: str = ""
    trace: str = ""
    turned_away: bool = False


@dataclass
class Episode:
    """``number`` of a run; with the seed it says everything that is sent."""

    clinic: Clinic
    values: Sequence[str]
    random: Random
    #: How often whole pages are opened, visit pages and papers above all: 1 usually, 0 seldom.
    slow: float = 1.0
    answers: list[Answer] = field(default_factory=list)

    def play(self) -> list[Answer]:
        """Sends the requests; nothing of what they do is kept."""
        self.role = ""
        with transaction.atomic():
            self.random.choices(
                (self._browse, self._direct, self._broken), (1 + 4 * self.slow, 3, 2)
            )[0]()
            transaction.set_rollback(True)
        return self.answers

    # --- what is sent ----------------------------------------------------------------------

    def _browse(self) -> None:
        """Open a page, send one of its forms with odd values in it, see what the page is now."""
        name = self._name()
        address = self._address(name) + self._query(0.15)
        page = self._send("GET", address)
        if page is not None and page.status_code == 405:
            self._direct(name)
        found = self._page(page, address)
        own = [one for one in found.forms if not one.in_header] if found else []
        if found is None or not own:
            return
        form = self.random.choice(own)
        answer = self._mend(form, found, self._post(form, found))
        for _ in range(2):
            if answer is None or answer.status_code not in {301, 302, 303}:
                break
            answer = self._send("GET", answer["Location"])
        self._send("GET", address)

    def _mend(self, form: Form, page: Page, answer: Any) -> Any:
        """As somebody would who reads what is wrong: that is typed again, twice at most."""
        for _ in range(self.random.choice((0, 1, 2, 2))):
            shown = self._page(answer, page.address)
            again = [one for one in shown.forms if one.action == form.action] if shown else []
            if shown is None or not again or not (wrong := again[0].amiss()):
                break
            fields = [(n, v) for n, v in again[0].filled() if n not in wrong]
            for name in sorted(wrong):
                offered = [one for one in again[0].offers(name) if one]
                fields.append((name, self.random.choice(offered or [*usual(name), ""])))
            answer = self._post(again[0], shown, fields + pressed(again[0], self.random))
        return answer

    def _post(self, form: Form, page: Page, mended: list[tuple[str, str]] | None = None) -> Any:
        fields = self._typed(form) if mended is None else mended
        to = self.random.choice([form.action, form.action, form.action, *form.also])
        if form.method == "GET":
            path = to.partition("?")[0] or page.address.partition("?")[0]
            return self._send("GET", f"{path}?{wire.urlencoded(fields)}")
        to = to or page.address
        if form.multipart or self.random.random() < 0.05:
            files = {
                one.name: self._file()
                for one in form.controls
                if one.kind == "file" and self.random.random() < 0.8
            }
            kind = f"multipart/form-data; boundary={wire.EDGE}"
            return self._send("POST", to, wire.multipart(fields, files), kind)
        return self._send("POST", to, wire.urlencoded(fields).encode(), wire.FORM)

    def _typed(self, form: Form) -> list[tuple[str, str]]:
        """What is filled in, with what a person might fill in and a few odd values."""
        random, names = self.random, form.names()
        sent = form.filled()
        share = random.choice((0.0, 0.2, 0.5, 1.0))
        odd = set(random.sample(names, min(len(names), random.choice((0, 0, 0, 1, 1, 2, 3, 8)))))
        for name in names:
            offered = form.offers(name)
            empty = not any(n == name and v for n, v in sent)
            if name in odd:
                made = [some(random, self.values) for _ in range(random.choice((0, 1, 1, 1, 3)))]
            elif (empty and random.random() < share) or random.random() < 0.05:
                made = [random.choice(offered or usual(name))]
            else:
                continue
            sent = [(n, v) for n, v in sent if n != name] + [(name, value) for value in made]
        return sent + pressed(form, random) + self._extra(0.1)

    def _extra(self, share: float) -> list[tuple[str, str]]:
        """Names that no field has."""
        if self.random.random() > share:
            return []
        return [(some(self.random, self.values)[:60], some(self.random, self.values))]

    def _direct(self, only_takes_posts: str = "") -> None:
        """One address with whatever its app's forms and views may ask for."""
        name = only_takes_posts or self._name()
        method = "POST" if self.random.random() < 0.85 else self.random.choice(wire.METHODS)
        body = wire.urlencoded(self._made_up(name)).encode() if method != "GET" else b""
        self._send(method, self._address(name) + self._query(0.6), body, wire.FORM)

    def _broken(self) -> None:
        """One request that is wrong as such."""
        name, random = self._name(), self.random
        path = self._address(name)
        if random.random() < 0.25:
            path = f"/{wire.quoted(some(random, self.values)[:400])}{random.choice(('', path))}"
        method = "POST" if random.random() < 0.8 else random.choice(wire.METHODS)
        body = wire.body(random, self._made_up(name), self.values)
        kind, odd = wire.content_type(random), wire.headers(random)
        self._send(method, path + self._query(0.3), body, kind, **odd)

    def _made_up(self, name: str) -> list[tuple[str, str]]:
        """One of the app's forms filled in, and by name what its views ask for besides."""
        random, (asked, filled_in) = self.random, names_asked(name.partition(":")[0])
        values = [*self.values, *USUAL * 5, *map(str, self._ids())]
        form = random.choice(filled_in) if filled_in else {}
        odd = random.choice((0.0, 0.1, 0.5))
        sent = [
            (field, some(random, values) if random.random() < odd else random.choice(offered))
            for field, offered in form.items()
        ]
        sent += [(one, some(random, values)) for one in asked if random.random() < 0.3]
        return sent + self._extra(0.2)

    def _query(self, share: float) -> str:
        if self.random.random() > share:
            return ""
        many = self.random.choice((1, 1, 2, 4))
        names = self.random.choices(query_names(), k=many)
        values = [*self.values, *USUAL * 3]
        return "?" + wire.urlencoded([(one, some(self.random, values)) for one in names])

    def _file(self) -> tuple[str, bytes]:
        """A picture, or what only says so."""
        picture = io.BytesIO()
        size = self.random.choice(((40, 30), (1, 1), (3000, 2)))
        kind = self.random.choice(("JPEG", "PNG", "GIF", "BMP"))
        Image.new("RGB", size, "tan").save(picture, kind)
        whole = picture.getvalue()
        content = self.random.choice((whole, whole, whole, whole[:-20], whole[:30], b"", b"text"))
        named = ("a.jpg", "", "a\0.jpg", "x" * 400 + ".png", "\ud800", "../a.heic")
        return self.random.choice(named), content

    # --- where it is sent ------------------------------------------------------------------

    def _name(self) -> str:
        """An address, and who asks for it: mostly somebody who may."""
        names = list(self.clinic.urls)
        weights = [self._weight(name) for name in names]
        name = self.random.choices(names, weights)[0]
        right = getattr(self.clinic.urls[name].callback, "right", None)
        may = [role for role in ROLES if right is None or right in ROLE_RIGHTS[role]]
        self.role = self.random.choice((*ROLES, "") if self.random.random() < 0.1 else may)
        return name

    def _weight(self, name: str) -> float:
        if VISIT.match(name):
            return 0.3 + 2.7 * self.slow
        if PAPERS.match(name):
            return 0.1 * self.slow
        if DRAWN.match(name):
            return 0.2 + 0.8 * self.slow
        return 0.3 if SIGN_IN.match(name) else 1

    def _address(self, name: str) -> str:
        """Mostly of a record that is there, sometimes of another's or of nothing."""
        random, pattern = self.random, self.clinic.urls[name].pattern
        parts = dict(random.choice(self.clinic.parts[name]))
        for part in parts:
            if random.random() < 0.12:
                parts[part] = random.choice(self.clinic.known[part])
            elif random.random() < 0.05:
                parts[part] = random.choice(self._ids())
            elif random.random() < 0.03 and pattern.converters:
                parts[part] = some(random, self.values)[:200]
        try:
            return reverse(name, kwargs=parts)
        except NoReverseMatch:
            whole = reverse(name, kwargs=self.clinic.parts[name][0])
            for part, value in self.clinic.parts[name][0].items():
                whole = whole.replace(f"/{value}/", f"/{wire.quoted(str(parts[part]))}/")
            return whole

    def _ids(self) -> list[Any]:
        """Of records of every kind, and of none."""
        found = [one for ids in self.clinic.known.values() for one in ids]
        return [*found, UUID(int=0), 0, 2**31, 2**63, 10**30]

    # --- sending ---------------------------------------------------------------------------

    def _send(
        self, method: str, path: str, body: bytes = b"", kind: str = "", **headers: Any
    ) -> Any:
        """One request; a transaction of its own inside the episode's, closed as a commit would
        close it."""
        client = self.clinic.client
        client.cookies.clear()
        self.clinic.handler.enforce_csrf_checks = self.random.random() < 0.02
        if session := self.clinic.sessions[self.role]:
            client.cookies[settings.SESSION_COOKIE_NAME] = session
        broken: list[tuple[str, str]] = []

        def catch(**_given: Any) -> None:
            broken.append(fault_of(sys.exc_info()[1]))

        got_request_exception.connect(catch)
        try:
            with transaction.atomic():
                answer: Any = client.generic(method, path, body, kind, **headers)
                if answer.streaming:
                    b"".join(answer.streaming_content)
                status = answer.status_code
                transaction.set_rollback(status >= 500)
                if status < 500 and method not in {"GET", "HEAD"}:
                    _as_at_commit()
        except Exception as error:
            # Past the error page, or at the commit.
            broken.append(fault_of(error))
            answer, status = None, 500
        finally:
            got_request_exception.disconnect(catch)
        fault, trace = broken[-1] if broken else ("", "")
        words = (
            f"{self.role or 'signed out'}: {method} {path[:300]} {headers or ''} {body[:2000]!r}"
        )
        away = answer is not None and answer.get("Location", "").startswith(SIGNING_IN)
        shown = fault if status >= 500 else ""
        self.answers.append(Answer(words, status, shown, trace, turned_away=away))
        return answer

    def _page(self, answer: Any, address: str) -> Page | None:
        html = answer is not None and answer.get("Content-Type", "").startswith("text/html")
        if not html or answer.status_code not in {200, 422}:
            return None
        return Page(answer.content.decode(), address.partition("?")[0])


def _as_at_commit() -> None:
    """What is checked when a transaction ends."""
    with connection.cursor() as cursor:
        cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
        cursor.execute("SET CONSTRAINTS ALL DEFERRED")


def fault_of(error: BaseException | None) -> tuple[str, str]:
    """What broke and the last of our own lines that led there; the whole trace."""
    frames = traceback.extract_tb(error.__traceback__) if error else []
    ours = [one for one in frames if "/clinic/" in one.filename or "/planning/" in one.filename]
    ours = [one for one in ours if ".venv" not in one.filename]
    where = "?"
    for last in (ours or list(frames))[-1:]:
        where = f"{last.filename.removeprefix(f'{ROOT}/')}:{last.lineno} {last.name}"
    return f"{type(error).__name__} in {where}", "".join(traceback.format_exception(error))


def usual(name: str) -> tuple[str, ...]:
    """What a person types into a field of this name."""
    if re.search(r"date|_on$|-on$|-off$|_at$|^on$|^due|day$|born|birth|since|until|when", name):
        return ("2025-05-06", "6 May 2025", "2026-11-30", "2025-05-06T10:15", "Mar 2021")
    if re.search(r"_mm|_cm|_ml|_kg|hours?$|_days|count|per_|percent|number", name):
        return ("1", "2", "5", "12", "25", "30", "25.5")
    return USUAL


@cache
def names_asked(app: str) -> tuple[tuple[str, ...], list[dict[str, list[str]]]]:
    """Names that an app's views ask for, and its forms: each field with what may be filled in."""
    folder = ROOT / "clinic" / app
    asked = {
        name
        for source in folder.rglob("*.py")
        for name in re.findall(r'POST\.(?:get|getlist)\(\s*"(\w+)"', source.read_text())
    }
    filled_in = [
        {
            field: [str(key) for key, _ in getattr(one, "choices", ())] or list(usual(field))
            for field, one in form.base_fields.items()
        }
        for form in sorted(_all_forms(forms.BaseForm), key=lambda one: one.__qualname__)
        if form.__module__.startswith(f"clinic.{app}.") and getattr(form, "base_fields", None)
    ]
    return tuple(sorted(asked)), filled_in


def _all_forms(kind: Any) -> Iterator[Any]:
    for one in kind.__subclasses__():
        yield one
        yield from _all_forms(one)


@cache
def query_names() -> tuple[str, ...]:
    """Names that addresses may have after their question mark."""
    sources = [path.read_text() for path in (ROOT / "clinic").rglob("*.py")]
    found = {name for text in sources for name in re.findall(r'GET\.\w+\(\s*"(\w+)"', text)}
    found |= {name for form in names_asked("measures")[1] for name in form}
    return (*sorted(found), "next", "x\0")
