"""A page as PDF, kept by its content so that it is set once."""

from __future__ import annotations

import hashlib
from datetime import timedelta
from functools import cache
from importlib.metadata import version
from pathlib import Path

from django.utils import timezone

from clinic.documents.fetcher import static_folder
from clinic.documents.models import Rendering
from clinic.documents.pdf import PrintingUnavailable, pdf_of

#: Long enough for a reprint of the week; after that a sheet is set anew.
KEPT = timedelta(days=30)


def stored_pdf(html: str) -> bytes:
    """The PDF of ``html``: as it was set before, or set and kept now.

    Raises ``PrintingUnavailable`` as ``pdf_of`` does.
    """
    key = key_of(html)
    found = Rendering.objects.filter(key=key).first()
    if found is not None:
        return bytes(found.pdf)
    pdf = pdf_of(html)
    Rendering.objects.filter(made_at__lt=timezone.now() - KEPT).delete()
    # Two people at once set the same page: the first one's bytes stand for both.
    kept, _ = Rendering.objects.get_or_create(key=key, defaults={"pdf": pdf})
    return bytes(kept.pdf)


def is_stored(html: str) -> bool:
    """Whether ``stored_pdf`` would answer at once."""
    return Rendering.objects.filter(key=key_of(html)).exists()


def key_of(html: str) -> str:
    """The page, what it is styled with, and the program that sets it."""
    return hashlib.sha256(f"{_setting()}\n{html}".encode()).hexdigest()


@cache
def _setting() -> str:
    """Read once: style sheets change only with the program."""
    digest = hashlib.sha256()
    for path in sorted(Path(static_folder() / "css").glob("*.css")):
        digest.update(path.read_bytes())
    try:
        return f"{version('weasyprint')} {digest.hexdigest()}"
    except ModuleNotFoundError as missing:  # pragma: no cover - told on the page
        raise PrintingUnavailable("WeasyPrint is not installed on this server.") from missing
