"""The supply list as a table for an ordering system: one row an item.

UTF-8 with a byte order mark, because a spreadsheet otherwise guesses the letters of a name
wrongly; commas, CRLF (RFC 4180); dates ISO 8601; units named in words and as UCUM codes. A cell
that a spreadsheet would take for a formula is made text by a leading apostrophe.
"""

from __future__ import annotations

import csv
import io

from clinic.documents.supply_list.build import Item, SupplyList
from clinic.patients.models import Patient

COLUMNS = (
    "record_number",
    "family_name",
    "given_name",
    "date_of_birth",
    "visit_date",
    "visit_signed",
    "next_visit_date",
    "stoma",
    "item",
    "decided",
    "size",
    "unit",
    "unit_ucum",
    "until_next_visit",
    "until_next_visit_at_most",
    "per_30_days",
    "hcpcs_code",
    "usual_maximum_per_month",
    "over_usual_maximum",
    "medical_need",
    "diagnosis_codes_icd10cm",
    "note",
)
#: What a spreadsheet may take for the beginning of a formula (OWASP, CSV injection).
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def supply_csv(listed: SupplyList, patient: Patient) -> bytes:
    """Unknown amounts are empty cells, never zero."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(COLUMNS)
    for item in listed.items:
        row = _row(item, listed, patient)
        writer.writerow([guarded(row[name]) for name in COLUMNS])
    return out.getvalue().encode("utf-8-sig")


def guarded(value: object) -> str:
    """Text of a cell, safe to open in a spreadsheet.

    >>> guarded("=1+1"), guarded("  @x"), guarded(None), guarded(12), guarded("Ring")
    ("'=1+1", "'  @x", '', '12', 'Ring')
    """
    text = "" if value is None else str(value)
    return f"'{text}" if text.startswith(FORMULA) or text.lstrip().startswith(FORMULA) else text


def _row(item: Item, listed: SupplyList, patient: Patient) -> dict[str, object]:
    return {
        "record_number": patient.record_number,
        "family_name": patient.family_name,
        "given_name": patient.given_name,
        "date_of_birth": patient.date_of_birth.isoformat(),
        "visit_date": listed.visit_day.isoformat(),
        "visit_signed": "yes" if listed.signed else "no",
        "next_visit_date": listed.next_visit.isoformat() if listed.next_visit else None,
        "stoma": listed.stoma,
        "item": item.text,
        "decided": "by the clinician, changed from the plan" if item.by_hand else "as planned",
        "size": item.size,
        "unit": item.unit,
        "unit_ucum": item.ucum,
        "until_next_visit": item.until_next_visit,
        "until_next_visit_at_most": item.until_at_most,
        "per_30_days": item.per_month,
        "hcpcs_code": item.code,
        "usual_maximum_per_month": item.maximum_words,
        "over_usual_maximum": "yes" if item.over else "",
        "medical_need": item.reason,
        "diagnosis_codes_icd10cm": "; ".join(one.code for one in listed.codes),
        "note": " ".join(filter(None, (_of_code(item), item.note, _counted_for(item, listed)))),
    }


def _of_code(item: Item) -> str:
    """What is not certain about the code."""
    return f"Code {item.code_note}." if item.code_note else ""


def _counted_for(item: Item, listed: SupplyList) -> str:
    """What the amounts rest on, beside each that depends on it."""
    return "" if item.by_feel or item.by_hand else listed.change_day
