"""A thousand requests with bad input: none is answered 500. And the fuzzer sees what breaks."""

from datetime import date
from typing import Any

import pytest

from tests.fuzz.run import clinic_of, run

#: The long run asks for slow pages more often (tests/fuzz/__main__.py).
ASKED: dict[str, Any] = {"seed": 1, "requests": 1000, "slow": 0}


@pytest.mark.django_db
def test_no_bad_input_breaks_a_page_and_a_fault_would_be_seen(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    clinic = clinic_of(1)
    outcome = run(clinic, **ASKED)
    assert not outcome.faults, "\n".join(outcome.lines())
    # It got somewhere: pages, and forms that were taken.
    assert outcome.counts[200] > 200
    assert outcome.counts[302] - outcome.turned_away > 50
    assert outcome.turned_away < 100

    # A day that is none now breaks its form: seen, and the episode alone breaks the same way.
    monkeypatch.setattr("clinic.fields.readings", lambda text: [date.fromisoformat(text)])
    broken = run(clinic, **ASKED, until_fault=True)
    number, answer = broken.faults[0]
    again = run(clinic, **ASKED, only=number)
    assert (number, answer.fault) in [(n, one.fault) for n, one in again.faults]
