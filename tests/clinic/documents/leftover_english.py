"""English left over on a paper of another language, found in its page."""

import re
from html.parser import HTMLParser

#: Words that are the same in Spanish and English, and what no language changes.
SAME = {"p", "l", "i", "f", "50 mm", "85.60 × 53.98 mm (ISO/IEC 7810, ID-1)"}
#: What a paper shows as somebody entered it.
ENTERED = {"Imogen Thistledown", "Fern Lane Stoma Clinic (invented)"}
_RECORD = re.compile(r"\bT\d{6}\b")
_CONTROLS = re.compile("[\u2066-\u2069]")
_VOID = frozenset({"meta", "link", "br", "img", "rect", "path", "circle"})


class _Said(HTMLParser):
    """Text piece by piece and what screen readers read, without what is marked as English."""

    def __init__(self) -> None:
        super().__init__()
        self.said: list[str] = []
        self.open: list[bool] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        for name in ("aria-label", "alt", "data-page", "data-of"):
            self._keep(given.get(name) or "")
        if tag not in _VOID:
            self.open.append(given.get("class") == "in-english")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        if tag not in _VOID:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        if not any(self.open):
            self._keep(data)

    def _keep(self, words: str) -> None:
        told = " ".join(_RECORD.sub("", _CONTROLS.sub("", words)).split())
        if re.search("[A-Za-z]", told) and told not in SAME | ENTERED:
            self.said.append(told)


def _said(html: str) -> set[str]:
    reader = _Said()
    reader.feed(html)
    assert not reader.open
    return set(reader.said)


def left_over(html: str, english: str, language: str) -> set[str]:
    """Pieces of ``html`` that are also in ``english``; in Arabic, any with a Latin letter."""
    said = _said(html)
    assert _said(english)
    return said if language == "ar" else said & _said(english)
