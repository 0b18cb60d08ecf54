"""What came before: earlier visits, trials, weights, and what was agreed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planning.inputs.findings.visit import Findings


@dataclass(frozen=True, slots=True)
class Trial:
    """One earlier plan as worn: the supplies' keys and how it went (None: cannot tell).

    ``partly``: better, and still leaking or raw. ``barriers`` worn and ``days`` it ran, None: not
    recorded. ``before_record``: no plan of this record, typed in from what the person or an earlier
    letter says; those come first.
    """

    supplies: frozenset[str]
    helped: bool | None = None
    hurt: frozenset[str] = frozenset()
    partly: bool = False
    barriers: int | None = None
    days: float | None = None
    before_record: bool = False


class BaselineKind(StrEnum):
    """What can be long-standing and agreed for one stoma."""

    OUTPUT_TARGET = "output_target"
    PROLAPSE = "prolapse"
    HEIGHT = "height"
    BULGE = "bulge"
    VARICES = "varices"
    LIVER_DISEASE = "liver_disease"
    CONFUSION = "confusion"
    DARK_STOMA = "dark_stoma"
    THICK_SKIN = "thick_skin"
    HEALED_PYODERMA = "healed_pyoderma"
    CONTACT_BLEEDING = "contact_bleeding"
    PINK_URINE_OR_MUCUS = "pink_urine_or_mucus"
    SEPARATION = "separation"
    NARROW_LUMEN = "narrow_lumen"


@dataclass(frozen=True, slots=True)
class Baseline:
    """What a nurse or surgeon recorded as known and accepted; never made by the planner.

    ``value``: the agreed figure in the field's own unit (mL/24 h, mm), where there is one; ``low``
    the lower end of a range. ``review_in_days`` below 0: overdue, it no longer counts.
    ``reducible``: it went back when this was agreed.
    """

    kind: BaselineKind
    agreed_by: str
    value: float | None = None
    low: float | None = None
    urine_low_ml_24h: float | None = None
    reducible: bool | None = None
    since_days: float | None = None
    review_in_days: float | None = None

    @property
    def overdue(self) -> bool:
        """On the day of its review it still counts."""
        return self.review_in_days is not None and self.review_in_days < 0


@dataclass(frozen=True, slots=True)
class Weighing:
    """One earlier weight, so many whole days before this visit (0: the same day)."""

    days_before: int
    kg: float


@dataclass(frozen=True, slots=True)
class History:
    """What came before, newest last. ``specialist_convexity_assessment``: recorded and signed.
    ``weighings``: of the person at every signed visit, whichever stoma it was for."""

    previous: tuple[Findings, ...] = ()
    trials: tuple[Trial, ...] = ()
    specialist_convexity_assessment: bool = False
    convexity_reason: str = ""
    prescriber_agreed_antifungal: bool = False
    weighings: tuple[Weighing, ...] = ()
    baselines: tuple[Baseline, ...] = ()

    @property
    def last_plan(self) -> Trial | None:
        """The newest trial that a plan of this record began."""
        return next((t for t in reversed(self.trials) if not t.before_record), None)

    def baseline(self, kind: BaselineKind) -> Baseline | None:
        """The one agreed last, while its review is not overdue; an older one never replaces it."""
        newest = next((b for b in reversed(self.baselines) if b.kind is kind), None)
        return None if newest is None or newest.overdue else newest

    def ever_agreed(self, kind: BaselineKind) -> bool:
        """Also where the review is overdue: a reason for caution does not lapse."""
        return any(b.kind is kind for b in self.baselines)
