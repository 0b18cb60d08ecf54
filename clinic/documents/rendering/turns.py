"""Papers are set one at a time in each process, and one more may wait: setting takes the processor,
and a server with four threads keeps half of them for those who chart."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

from clinic.documents.rendering.unavailable import PrintingBusy
from clinic.metrics.figures import PAPER_SECONDS, PAPERS_NOW, PAPERS_REFUSED

#: Design values: a full sheet takes a second or two.
WAITING: Final = 1
LONGEST_SECONDS: Final = 20.0
BUSY: Final = "Other papers are being made right now. Wait a moment, then ask for this one again."

_places = threading.BoundedSemaphore(1 + WAITING)
_press = threading.Lock()


@contextmanager
def turn() -> Iterator[None]:
    """Inside, this thread alone sets a paper. Raises ``PrintingBusy`` where there is no place
    to wait, or one waits too long."""
    if not _places.acquire(blocking=False):
        PAPERS_REFUSED.inc()
        raise PrintingBusy(BUSY)
    try:
        with PAPERS_NOW.labels("waiting").track_inprogress():
            mine = _press.acquire(timeout=LONGEST_SECONDS)
        if not mine:
            PAPERS_REFUSED.inc()
            raise PrintingBusy(BUSY)
        try:
            with PAPERS_NOW.labels("set").track_inprogress(), PAPER_SECONDS.time():
                yield
        finally:
            _press.release()
    finally:
        _places.release()
