"""Papers never take every thread of a server: one is set, one waits, more come back later."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest
from prometheus_client import REGISTRY

from clinic.documents.rendering import pdf, turns
from clinic.documents.rendering.pdf import pdf_of
from clinic.documents.rendering.unavailable import PrintingBusy


def _counted(name: str, **labels: str) -> float:
    return REGISTRY.get_sample_value(name, labels) or 0.0


@pytest.fixture
def slow(monkeypatch: pytest.MonkeyPatch) -> Iterator[threading.Event]:
    """Setting lasts until the event is set; nothing is really set."""
    done = threading.Event()
    monkeypatch.setattr(pdf, "_set", lambda html: done.wait(30) and html)
    monkeypatch.setattr(pdf, "_pdf", lambda document: document.encode())
    yield done
    done.set()


def _waits_for(name: str, state: str) -> None:
    for _ in range(3000):
        if _counted(name, state=state):
            return
        threading.Event().wait(0.01)
    raise AssertionError(f"no paper is {state}")


def test_one_is_set_one_waits_and_the_third_is_asked_to_come_back(slow: threading.Event) -> None:
    made: list[bytes] = []
    refused = _counted("clinic_papers_refused_total")
    ask = [threading.Thread(target=lambda: made.append(pdf_of("a page"))) for _ in range(2)]
    ask[0].start()
    _waits_for("clinic_papers_now", "set")
    ask[1].start()
    _waits_for("clinic_papers_now", "waiting")
    with pytest.raises(PrintingBusy, match="Wait a moment"):
        pdf_of("a page")
    assert made == []
    assert _counted("clinic_papers_refused_total") == refused + 1
    slow.set()
    for thread in ask:
        thread.join()
    assert made == [b"a page"] * 2
    assert pdf_of("a page") == b"a page"
    assert _counted("clinic_papers_now", state="waiting") == 0


def test_no_one_waits_for_ever(slow: threading.Event, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(turns, "LONGEST_SECONDS", 0.01)
    first = threading.Thread(target=pdf_of, args=("a page",))
    first.start()
    _waits_for("clinic_papers_now", "set")
    with pytest.raises(PrintingBusy):
        pdf_of("a page")
    slow.set()
    first.join()


def test_what_fails_gives_its_place_back(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(html: str) -> str:
        raise ValueError(html)

    monkeypatch.setattr(pdf, "_set", fails)
    for _ in range(2 + turns.WAITING):
        with pytest.raises(ValueError, match="a page"):
            pdf_of("a page")
