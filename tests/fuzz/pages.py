"""The forms that a page shows, with the fields as they are filled in."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from random import Random

#: Names of attributes that say where a press goes, and how.
_SENDS = {"action": "", "formaction": "", "hx-post": "POST", "hx-get": "GET"}


@dataclass
class Control:
    """One field: its kind, what is filled in, what it offers, and whether the page says that it is
    wrong."""

    name: str
    kind: str
    value: str
    chosen: bool = True
    amiss: bool = False
    offered: list[str] = field(default_factory=list)


@dataclass
class Form:
    """What would be sent where; ``presses`` are its buttons with names."""

    action: str
    method: str = "GET"
    multipart: bool = False
    controls: list[Control] = field(default_factory=list)
    presses: list[Control] = field(default_factory=list)
    also: list[str] = field(default_factory=list)
    #: Of the page's head, which is on every page: find, lock, sign out.
    in_header: bool = False

    def filled(self) -> list[tuple[str, str]]:
        """What a browser would send."""
        return [
            (one.name, one.value)
            for one in self.controls
            if one.chosen and one.kind not in {"file", "submit"}
        ]

    def names(self) -> list[str]:
        return sorted({one.name for one in self.controls})

    def amiss(self) -> set[str]:
        """Names of what the page says is wrong."""
        return {one.name for one in self.controls if one.amiss}

    def offers(self, name: str) -> list[str]:
        """What the boxes, buttons and lists of this name offer."""
        found: list[str] = []
        for one in self.controls:
            if one.name == name:
                ticked = [one.value] if one.kind in {"radio", "checkbox"} else []
                found += one.offered or ticked
        return found


class Page(HTMLParser):
    """``forms`` and ``links`` of one page."""

    def __init__(self, text: str, address: str) -> None:
        super().__init__(convert_charrefs=True)
        self.address = address
        self.forms: list[Form] = []
        self.links: list[str] = []
        self._by_id: dict[str, Form] = {}
        self._loose: list[tuple[str, Control]] = []
        self._open: Form | None = None
        self._amiss = False
        self._in_header = False
        self._select: Control | None = None
        self._text: Control | None = None
        self.feed(text)
        self.close()
        for owner, control in self._loose:
            if owner in self._by_id:
                self._by_id[owner].controls.append(control)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        classes = given.get("class", "").split()
        if "field" in classes:
            self._amiss = "has-error" in classes
        if tag in {"header", "main"}:
            self._in_header = tag == "header"
        begin = {
            "form": self._begin_form,
            "input": self._input,
            "select": self._begin_select,
            "option": self._option,
            "textarea": self._begin_text,
            "button": self._button,
            "a": self._link,
        }.get(tag)
        if begin is not None:
            begin(given)
        for name, method in _SENDS.items():
            if name not in given or (tag == "form" and name == "action"):
                continue
            if self._open is not None:
                self._open.also.append(given[name])
            elif method:
                self.forms.append(Form(given[name], method, in_header=self._in_header))

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self._open = None
        elif tag == "select":
            self._select = None
        elif tag == "textarea":
            self._text = None

    def handle_data(self, data: str) -> None:
        if self._text is not None:
            self._text.value += data

    def _begin_form(self, given: dict[str, str]) -> None:
        form = Form(
            given.get("action") or self.address,
            given.get("method", "get").upper(),
            "multipart" in given.get("enctype", ""),
            in_header=self._in_header,
        )
        self._open = form
        self.forms.append(form)
        if "id" in given:
            self._by_id[given["id"]] = form

    def _add(self, given: dict[str, str], control: Control) -> None:
        if not control.name:
            return
        control.amiss = self._amiss or given.get("aria-invalid") == "true"
        if "form" in given:
            self._loose.append((given["form"], control))
        elif self._open is not None:
            self._open.controls.append(control)

    def _input(self, given: dict[str, str]) -> None:
        kind = given.get("type", "text")
        chosen = "checked" in given if kind in {"radio", "checkbox"} else True
        self._add(given, Control(given.get("name", ""), kind, given.get("value", ""), chosen))

    def _begin_select(self, given: dict[str, str]) -> None:
        self._select = Control(given.get("name", ""), "select", "")
        self._add(given, self._select)

    def _option(self, given: dict[str, str]) -> None:
        if self._select is not None:
            self._select.offered.append(given.get("value", ""))
            if "selected" in given:
                self._select.value = given.get("value", "")

    def _begin_text(self, given: dict[str, str]) -> None:
        self._text = Control(given.get("name", ""), "textarea", "")
        self._add(given, self._text)

    def _button(self, given: dict[str, str]) -> None:
        control = Control(given.get("name", ""), "submit", given.get("value", ""))
        if control.name and self._open is not None:
            self._open.presses.append(control)

    def _link(self, given: dict[str, str]) -> None:
        if given.get("href", "").startswith(("/", "?")):
            self.links.append(given["href"])


def pressed(form: Form, random: Random) -> list[tuple[str, str]]:
    """The button that sends it."""
    if not form.presses:
        return []
    one = random.choice(form.presses)
    return [(one.name, one.value)]
