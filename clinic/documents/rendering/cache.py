"""Content-addressed PDF cache: a page is set once."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from datetime import datetime, timedelta
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from clinic.documents.models import Rendering, StoredFile
from clinic.documents.rendering import pdf

#: How long a page is kept that was set and never printed. One that was stays with its file, and
#: is printed again at once however long after: a day's file is of sheets from the visit before.
KEPT = timedelta(days=30)


def stored_file(pages: Sequence[str], *, at_most: int = 1) -> StoredFile:
    """The file of one page; of several, the first that fits, as ``pdf.fitting`` has it: as it was
    set before, or set and kept now.

    Raises ``PrintingUnavailable`` as ``pdf.pdf_of`` does.
    """
    key = key_of(pages, at_most=at_most)
    found = Rendering.objects.filter(key=key).select_related("file").first()
    return found.file if found else _keep(key, pdf.fitting(pages, at_most=at_most))


@transaction.atomic
def _keep(key: str, made: bytes) -> StoredFile:
    forget_before(timezone.now())
    file, _ = StoredFile.objects.get_or_create(
        sha256=hashlib.sha256(made).hexdigest(), defaults={"pdf": made}
    )
    # Two people at once set the same page: the first one's bytes serve both.
    kept, _ = Rendering.objects.get_or_create(key=key, defaults={"file": file})
    return kept.file


def forget_before(now: datetime) -> int:
    """Forget what was set more than ``KEPT`` ago and never printed; how many files."""
    old = now - KEPT
    Rendering.objects.filter(made_at__lt=old, file__printed=None).delete()
    return StoredFile.objects.filter(made_at__lt=old, renderings=None, printed=None).delete()[0]


def is_stored(pages: Sequence[str], *, at_most: int = 1) -> bool:
    """Whether ``stored_file`` would answer at once."""
    return Rendering.objects.filter(key=key_of(pages, at_most=at_most)).exists()


def key_of(pages: Sequence[str], *, at_most: int = 1) -> str:
    """The pages, what they are styled and drawn with, and the program that sets them."""
    digest = hashlib.sha256(f"{_setting()} {at_most}".encode())
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
    except PackageNotFoundError:  # explained when a page that is not kept is asked for
        program = ""
    return f"{program} {digest.hexdigest()}"
