"""One verdict out of leaks, wear and skin.

Rule, in this order:
1. Something better and something worse: *cannot tell*, shown as mixed; the nurse judges.
2. Something worse: *worse*.
3. Something better: *helped*.
4. No different in something that was still a problem afterwards: *no different*.
5. Something is not known yet: *cannot tell*.
6. Nothing was wrong before, nothing is now: *no different*.
"""

from __future__ import annotations

from collections.abc import Sequence

from planning.course.number_words import listed
from planning.course.results import Finding, Judged, Verdict
from planning.course.too_little_wear import CANNOT_COMPARE

_RANK = {Verdict.WORSE: 0, Verdict.HELPED: 0, Verdict.NO_DIFFERENT: 1, Verdict.CANNOT_TELL: 2}
_LEAD = {
    Verdict.HELPED: "It helped",
    Verdict.NO_DIFFERENT: "It made no difference",
    Verdict.WORSE: "Things got worse",
    Verdict.CANNOT_TELL: "It is not clear yet whether it helped",
}
#: A plan that changed nothing neither helped nor failed to.
_LEAD_UNCHANGED = {
    Verdict.HELPED: "Things got better",
    Verdict.NO_DIFFERENT: "Things stayed as they were",
    Verdict.WORSE: "Things got worse",
    Verdict.CANNOT_TELL: "It is not clear yet how things went",
}
_NAMES = {Judged.LEAKS: "leaks", Judged.WEAR: "wear", Judged.SKIN: "skin"}


def overall(findings: Sequence[Finding]) -> Verdict:
    """The verdict by the rule above."""
    said = {finding.verdict for finding in findings}
    if {Verdict.HELPED, Verdict.WORSE} <= said:
        return Verdict.CANNOT_TELL
    for clear in (Verdict.WORSE, Verdict.HELPED):
        if clear in said:
            return clear
    if any(f.verdict is Verdict.NO_DIFFERENT and remains(f) for f in findings):
        return Verdict.NO_DIFFERENT
    return Verdict.CANNOT_TELL if Verdict.CANNOT_TELL in said else Verdict.NO_DIFFERENT


def remains(finding: Finding) -> bool:
    """Leaks or damaged skin were still there afterwards. Wear alone is no problem."""
    return finding.of is not Judged.WEAR and bool(finding.after)


def words(findings: Sequence[Finding], *, changed: bool) -> str:
    """The verdict and its figures, what decides it first. ``changed``: whether the plan did."""
    verdict = overall(findings)
    better = _named(findings, Verdict.HELPED)
    worse = _named(findings, Verdict.WORSE)
    lead = (_LEAD if changed else _LEAD_UNCHANGED)[verdict]
    if better and worse:
        lead = f"It is mixed: {listed(better)} better, {listed(worse)} worse"
    ordered = sorted(findings, key=lambda finding: _RANK[finding.verdict])
    return " ".join([f"{lead}.", *(_alike(tuple(ordered)))])


def _named(findings: Sequence[Finding], verdict: Verdict) -> tuple[str, ...]:
    return tuple(_NAMES[f.of] for f in findings if f.verdict is verdict)


def _alike(findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """Their texts; what both leaks and wear lack is given once."""
    leaks, wear = (
        next((f.text for f in findings if f.of is of), "") for of in (Judged.LEAKS, Judged.WEAR)
    )
    lack = leaks.removeprefix("Leaks ")
    if CANNOT_COMPARE not in leaks or lack != wear.removeprefix("Wear "):
        return tuple(f.text for f in findings)
    rest = tuple(f.text for f in findings if f.of is not Judged.WEAR)
    return tuple(f"Leaks and wear {lack}" if text == leaks else text for text in rest)
