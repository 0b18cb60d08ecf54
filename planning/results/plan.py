"""What the planner answers: every item carries its reason and source.

All frozen, all plain data: ``planning.results.snapshot`` turns a plan into JSON and back unchanged.
Wording comes in two voices: ``text`` for the clinician, ``patient_text`` for the sheet
(None: not for the patient), which is held as messages; plain words given there become one.
Lengths mm, volumes mL/24 h, times days.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from planning.inputs.age import AgeGroup
from planning.inputs.clock import NOWHERE, ClockHours
from planning.inputs.findings import Material
from planning.results.message import Text, to_patient


class Urgency(StrEnum):
    """How soon someone must look, most urgent first. ``TELEPHONE``: the call is made today and its
    answer recorded; being seen is not required."""

    EMERGENCY = "emergency"
    SAME_DAY = "same_day"
    TELEPHONE = "telephone"
    DAYS = "days"
    TWO_WEEKS = "two_weeks"
    ROUTINE = "routine"

    @property
    def rank(self) -> int:
        """0 is the most urgent."""
        return _RANK[self]


_RANK: Final = {urgency: rank for rank, urgency in enumerate(Urgency)}


def _as_text(item: RedFlag | Recommendation | Step | FollowUp | CallWhen) -> None:
    """Where a rule gave plain words for the patient, a message of them."""
    object.__setattr__(item, "patient_text", to_patient(item.patient_text))


@dataclass(frozen=True, slots=True)
class Reason:
    """One link of *because*: what was found, in words, and the sources that make it matter.

    ``finding`` is the path of the field in ``Findings`` it rests on ("" for a derived fact).
    """

    text: str
    sources: tuple[str, ...]
    finding: str = ""


@dataclass(frozen=True, slots=True)
class RedFlag:
    """Danger. ``refer_to`` in words; ``do`` what to do in the meantime.

    ``includes``: keys of flags with less to say about the same finding to the same person; their
    reasons are in ``because``.
    """

    key: str
    urgency: Urgency
    text: str
    refer_to: str
    do: str
    because: tuple[Reason, ...]
    patient_text: Text | None = None
    includes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        _as_text(self)


class CauseOf(StrEnum):
    SKIN = "skin"
    LEAK = "leak"


@dataclass(frozen=True, slots=True)
class Cause:
    """A possible cause with the evidence for and against; ``score`` orders them, no probability."""

    key: str
    of: CauseOf
    title: str
    score: float
    supports: tuple[Reason, ...]
    against: tuple[Reason, ...]
    hours: ClockHours = NOWHERE


@dataclass(frozen=True, slots=True)
class CauseRanking:
    """Ranked, likeliest first; ``cannot_tell_apart`` keys of the top ones when evidence is level.

    ``would_tell_apart``: the one next check that would separate the top two.
    """

    causes: tuple[Cause, ...] = ()
    cannot_tell_apart: tuple[str, ...] = ()
    would_tell_apart: str | None = None


@dataclass(frozen=True, slots=True)
class Need:
    """What the system must do: ``key`` such as ``lift_rim``; ``amount`` with its ``unit``."""

    key: str
    text: str
    because: tuple[Reason, ...]
    amount: float | None = None
    unit: str = ""
    hours: ClockHours = NOWHERE


class ItemKind(StrEnum):
    """What a recommendation is about; also the order in which the plan is read."""

    BARRIER = "barrier"
    OPENING = "opening"
    RING = "ring"
    FILLER = "filler"
    SKIN_CARE = "skin_care"
    POUCH = "pouch"
    SUPPORT = "support"
    WEAR = "wear"
    TEACH = "teach"
    REFER = "refer"
    FOLLOW_UP = "follow_up"


class Stage(StrEnum):
    """When a change of what is worn is made. None on a recommendation: it is no such change."""

    CORRECT_NOW = "correct_now"
    TODAY = "today"
    KEEP = "keep"


class Change(StrEnum):
    """Against what is worn now."""

    KEEP = "keep"
    START = "start"
    CHANGE = "change"
    STOP = "stop"


@dataclass(frozen=True, slots=True)
class Recommendation:
    """One thing to do. ``key`` is stable, so that a decision can be tied to it.

    ``need_keys`` name the needs it serves: finding -> need -> supply.
    """

    key: str
    kind: ItemKind
    change: Change
    text: str
    because: tuple[Reason, ...]
    need_keys: tuple[str, ...] = ()
    patient_text: Text | None = None
    caution: str | None = None
    stage: Stage | None = None

    def __post_init__(self) -> None:
        _as_text(self)


@dataclass(frozen=True, slots=True)
class NextStep:
    """A step that waits: taken if what is done today does not hold, ``trigger`` says when."""

    key: str
    text: str
    trigger: str


class FitAnswer(StrEnum):
    """Does the pouching system fit? Told apart from how the person is."""

    FITS = "fits"
    CORRECT = "correct"
    CHANGE = "change"
    WATCH = "watch"
    CANNOT_TELL = "cannot_tell"
    NOT_NOW = "not_now"


@dataclass(frozen=True, slots=True)
class Fit:
    """``changes``: how many parts of what is worn this plan changes, by the one definition."""

    answer: FitAnswer
    text: str
    changes: int = 0


@dataclass(frozen=True, slots=True)
class Well:
    """Is the person well? ``open``: danger questions not answered that could change it."""

    urgency: Urgency
    text: str
    open: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Dimensions:
    """Sizes with the geometry behind them, mm and mm2. None: cannot be known from the findings.

    ``opening_outline`` and ``stoma_outline``: points (x, y), closed, x to the patient's left
    (3 o'clock), y to the head, centred on the stoma.
    """

    stoma_length_mm: float | None = None
    stoma_width_mm: float | None = None
    stoma_area_mm2: float | None = None
    stoma_perimeter_mm: float | None = None
    gap_mm: float | None = None
    opening_length_mm: float | None = None
    opening_width_mm: float | None = None
    stoma_outline: tuple[tuple[float, float], ...] = ()
    opening_outline: tuple[tuple[float, float], ...] = ()
    nearest_pre_cut_mm: float | None = None
    convex_depth_mm: float | None = None
    convex_depth_class: str | None = None
    plateau_mm: float | None = None
    ring_stretched_inner_mm: float | None = None
    ring_stretched_thickness_mm: float | None = None
    ring_cut_and_overlap: bool | None = None
    half_ring_layers: int | None = None
    paste_mm: float | None = None
    skin_burden_mm2: float | None = None
    skin_burden_share: float | None = None
    gap_area_mm2: float | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the technique, already in order.

    ``belongs_to``: keys of the recommendations it carries out; where any of them was dropped
    or changed, the step no longer holds. Empty: part of every change.
    """

    key: str
    text: str
    patient_text: Text | None
    sources: tuple[str, ...]
    belongs_to: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        _as_text(self)


@dataclass(frozen=True, slots=True)
class Quantity:
    """Supplies until the next visit. ``code``: open procurement code; caps None: none stated.

    ``until_at_most``: what is needed should barriers last only as long as the short end of the
    interval of this person's own log. ``note``: what to mind when ordering. ``cap_note``: what
    is over the usual maximum, lines of one code counted together; None: nothing is.
    ``code_note``: what is not certain about the code; None: nothing said.
    """

    supply_key: str
    text: str
    per_change: float
    unit: str
    until_next_visit: int | None
    per_month: int | None
    code: str | None = None
    usual_monthly_maximum: float | None = None
    over_maximum: bool | None = None
    until_at_most: int | None = None
    note: str | None = None
    cap_note: str | None = None
    code_note: str | None = None


@dataclass(frozen=True, slots=True)
class LastingWear:
    """How long a barrier lasts until it fails, of ``barriers`` in the log, ``failed`` of them:
    off for anything but a planned change.

    ``median_days`` None: not reached. ``held`` the share (0 to 1) that lasts longer than
    ``held_days``, None where none was watched for so long; bounds are 95 %, None where the method
    gives none.
    """

    barriers: int
    failed: int
    median_days: float | None
    median_low: float | None
    median_high: float | None
    held_days: float
    held: float | None
    held_low: float | None
    held_high: float | None
    text: str
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ExpectedWear:
    """Days one barrier is likely to stay: the mean of ``barriers`` in this person's own log with
    its 95 % interval, else (``barriers`` 0, no interval) the published mean. That sets how many
    are used; ``lasting`` says how long one could last (None: the log holds too few)."""

    days: float
    low_days: float | None
    high_days: float | None
    barriers: int
    text: str
    sources: tuple[str, ...]
    lasting: LastingWear | None = None


@dataclass(frozen=True, slots=True)
class SuggestedCode:
    """A diagnosis code for a coder to confirm, never assigned. ``note`` says so, and what the
    code calls for besides."""

    code: str
    title: str
    release: str
    because: tuple[Reason, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class FollowUp:
    """When to see the person again: ``in_days`` from this visit, and why.

    ``patient_text`` says why in plain words for the sheet.
    """

    in_days: int
    text: str
    because: tuple[Reason, ...]
    patient_text: Text | None = None

    def __post_init__(self) -> None:
        _as_text(self)


@dataclass(frozen=True, slots=True)
class RunnerUp:
    """The next best combination of supplies and why it lost."""

    supplies: tuple[str, ...]
    text: str
    lost_because: str


@dataclass(frozen=True, slots=True)
class CallWhen:
    """A line of the sheet: what the patient may see, whom to call."""

    urgency: Urgency
    patient_text: Text
    sources: tuple[str, ...]

    def __post_init__(self) -> None:
        _as_text(self)


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole answer for one stoma at one visit.

    ``missing`` names what was not recorded and would have mattered. With an emergency
    (``urgency``), ``recommendations`` hold only what is safe until help comes. ``leave_alone``
    is the well-fitting system: change nothing. ``expected_wear`` None: an emergency, or a plan
    made before it was given. ``well`` and ``fit`` answer two questions apart (None: a plan made
    before); ``next_steps`` wait, in order. ``made_for``: whose rules made it; but for an adult it
    holds no figure, size or supply (plans made before the age was known are by rules for adults).
    ``suspects``: materials that the skin may react to, never proven; the one at the barrier first.
    """

    rule_set: str
    urgency: Urgency
    headline: str
    leave_alone: bool
    red_flags: tuple[RedFlag, ...]
    causes: CauseRanking
    needs: tuple[Need, ...]
    recommendations: tuple[Recommendation, ...]
    runner_up: RunnerUp | None
    dimensions: Dimensions
    steps: tuple[Step, ...]
    quantities: tuple[Quantity, ...]
    follow_up: FollowUp
    call_when: tuple[CallWhen, ...]
    notices: tuple[Reason, ...]
    missing: tuple[Reason, ...]
    supplies: tuple[str, ...]
    expected_wear: ExpectedWear | None = None
    suggested_codes: tuple[SuggestedCode, ...] = ()
    made_for: AgeGroup = AgeGroup.ADULT
    well: Well | None = None
    fit: Fit | None = None
    next_steps: tuple[NextStep, ...] = ()
    suspects: tuple[Material, ...] = ()
