"""The ids of every message that a plan has ever been able to say. None is ever taken out.

Signed plans hold them, so each stays in the catalogues or has a row in ``replaced_ids.py``.
``python -m tests.clinic.documents.patient_language.record_ids`` adds those of today's rules.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from clinic.documents.patient_language.replaced_ids import Key

PATH = Path(__file__).with_suffix(".json")


@cache
def recorded_ids() -> frozenset[Key]:
    """By context of the catalogues ("" for none) and id."""
    stored = json.loads(PATH.read_text(encoding="utf-8"))
    return frozenset((context, id_) for context, id_ in stored)
