"""What is counted, each with the few words it is counted by: names of pages, never addresses."""

from __future__ import annotations

from typing import Final

from prometheus_client import Counter, Gauge, Histogram

#: A page's name is that of its route, such as "charting:save".
REQUESTS: Final = Counter("clinic_requests", "Answers", ["page", "method", "status"])
SECONDS: Final = Histogram("clinic_request_seconds", "Time to an answer", ["page"])
#: ``outcome``: saved, conflict or refused.
SAVES: Final = Counter("clinic_saves", "Saves of a visit", ["outcome"])
DATABASE_ERRORS: Final = Counter("clinic_database_errors", "Failed for the database", ["kind"])
PAPER_SECONDS: Final = Histogram("clinic_paper_seconds", "Time to set a PDF, without waiting")
#: Papers being set and those that wait for it.
PAPERS_NOW: Final = Gauge(
    "clinic_papers_now", "Papers set or waiting", ["state"], multiprocess_mode="livesum"
)
PAPERS_REFUSED: Final = Counter("clinic_papers_refused", "Asked to try again, as many waited")
