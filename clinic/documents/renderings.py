"""A page as PDF, kept by its content so that it is set once."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from datetime import timedelta
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from clinic.documents import pdf
from clinic.documents.models import Rendering, StoredFile

#: Long enough for a reprint of the week; after that a sheet is set anew, to the same bytes.
KEPT = timedelta(days=30)


def stored_pdf(html: str) -> bytes:
    """The PDF of ``html``: as it was set before, or set and kept now.

    Raises ``PrintingUnavailable`` as ``pdf_of`` does.
    """
    return bytes(stored_file([html]).pdf)


def stored_file(pages: Sequence[str]) -> StoredFile:
    """The file of one page; of several, the fullest that fits one sheet, as ``one_page`` has it.

    Raises ``PrintingUnavailable`` as ``pdf_of`` does.
    """
    key = key_of(*pages)
    found = Rendering.objects.filter(key=key).select_related("file").first()
    if found is not None:
        return found.file
    setting: Callable[[], bytes] = (
        (lambda: pdf.pdf_of(pages[0])) if len(pages) == 1 else (lambda: pdf.one_page(pages))
    )
    return _keep(key, setting())


@transaction.atomic
def _keep(key: str, made: bytes) -> StoredFile:
    _forget()
    file, _ = StoredFile.objects.get_or_create(
        sha256=hashlib.sha256(made).hexdigest(), defaults={"pdf": made}
    )
    # Two people at once set the same page: the first one's bytes stand for both.
    kept, _ = Rendering.objects.get_or_create(key=key, defaults={"file": file})
    return kept.file


def _forget() -> None:
    """What is old; a file that was printed stays."""
    before = timezone.now() - KEPT
    Rendering.objects.filter(made_at__lt=before).delete()
    unused = StoredFile.objects.filter(made_at__lt=before, renderings=None, printed=None)
    unused.delete()


def is_stored(html: str) -> bool:
    """Whether ``stored_pdf`` would answer at once."""
    return Rendering.objects.filter(key=key_of(html)).exists()


def key_of(*pages: str) -> str:
    """The pages, what they are styled and drawn with, and the program that sets them."""
    digest = hashlib.sha256(_setting().encode())
    for page in pages:
        digest.update(b"\0" + page.encode())
    return digest.hexdigest()


@cache
def _setting() -> str:
    """Read once: style sheets and drawings change only with the program."""
    digest = hashlib.sha256()
    for folder, ending in (("css", "*.css"), ("drawings", "*.svg")):
        for path in sorted((Path(settings.BASE_DIR) / "static" / folder).glob(ending)):
            digest.update(path.name.encode() + b"\0" + path.read_bytes())
    try:
        program = version("weasyprint")
    except PackageNotFoundError:  # told in words by whoever asks for a page that is not kept
        program = ""
    return f"{program} {digest.hexdigest()}"
