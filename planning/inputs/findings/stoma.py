"""Which stoma it is, and how it was made."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class StomaKind(StrEnum):
    ILEOSTOMY = "ileostomy"
    JEJUNOSTOMY = "jejunostomy"
    COLOSTOMY = "colostomy"
    UROSTOMY = "urostomy"


class Construction(StrEnum):
    END = "end"
    LOOP = "loop"
    DOUBLE_BARREL = "double_barrel"


@dataclass(frozen=True, slots=True)
class Stoma:
    kind: StomaKind
    construction: Construction | None = None
    days_since_surgery: int | None = None
    rod_in_place: bool | None = None
