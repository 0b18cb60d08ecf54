"""What is seen on the skin and asks for nothing: a mark that fades, a settled scar or spot.

A mark whose fading was not timed is not harmless, nor is a spot whose change is not known.
"""

from __future__ import annotations

from planning.evidence.thresholds import MARK_STAYS
from planning.inputs.findings import SkinFinding, SkinKind


def harmless(finding: SkinFinding) -> bool:
    """Seen, recorded, and no damage.

    >>> from planning.inputs.clock import ClockHours
    >>> mark = SkinFinding(SkinKind.PRESSURE_MARK, ClockHours.of(3), fades_min=15.0)
    >>> harmless(mark), harmless(SkinFinding(SkinKind.PRESSURE_MARK, ClockHours.of(3)))
    (True, False)
    """
    if finding.kind is SkinKind.SETTLED_SCAR:
        return not finding.pain and not finding.enlarging
    if finding.kind is SkinKind.PIGMENTED_SPOT:
        return finding.changing is False
    if finding.kind is SkinKind.PRESSURE_MARK:
        fades = finding.fades_min is not None and finding.fades_min <= MARK_STAYS.value
        return fades and not finding.pain
    return False


def lasting_mark(finding: SkinFinding) -> bool:
    """A red mark on whole skin, timed and still there after half an hour: press less, one step.

    A mark that was not timed, a bruise or a sore counts as an injury instead.
    """
    minutes = finding.stays_min if finding.fades_min is None else finding.fades_min
    timed = minutes is not None and minutes > MARK_STAYS.value
    return finding.kind is SkinKind.PRESSURE_MARK and timed
