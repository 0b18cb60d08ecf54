"""One verdict out of leaks, wear and skin.

Rule, in this order:
1. Something better and something worse: *cannot tell*, shown as mixed; the nurse judges.
2. Something worse, or better: so it is in all where that is more than chance for as many things
   judged together (``statistics.several``); else *cannot tell*.
3. No different in all three, and leaks or damaged skin are still there: *no different*.
4. Anything else: *cannot tell*, no difference has been shown yet.
"""

from __future__ import annotations

from collections.abc import Sequence

from planning.course.margin import AT_A_LOOK
from planning.course.number_words import listed
from planning.course.results import Finding, Judged, Verdict
from planning.statistics.several import any_difference

_RANK = {Verdict.WORSE: 0, Verdict.HELPED: 0, Verdict.NO_DIFFERENT: 1, Verdict.CANNOT_TELL: 2}
_NOT_SHOWN = "No difference has been shown yet"
_LEAD = {
    Verdict.HELPED: "It helped",
    Verdict.NO_DIFFERENT: "It made no difference",
    Verdict.WORSE: "Things got worse",
    Verdict.CANNOT_TELL: _NOT_SHOWN,
}
#: A plan that changed nothing neither helped nor failed to.
_LEAD_UNCHANGED = {
    Verdict.HELPED: "Things got better",
    Verdict.NO_DIFFERENT: "Things stayed as they were",
    Verdict.WORSE: "Things got worse",
    Verdict.CANNOT_TELL: _NOT_SHOWN,
}
_NAMES = {Judged.LEAKS: "leaks", Judged.WEAR: "wear", Judged.SKIN: "skin"}


def overall(findings: Sequence[Finding]) -> Verdict:
    """The verdict by the rule above."""
    said = {finding.verdict for finding in findings}
    if {Verdict.HELPED, Verdict.WORSE} <= said:
        return Verdict.CANNOT_TELL
    for clear in (Verdict.WORSE, Verdict.HELPED):
        if clear in said:
            judged = [f.chance for f in findings if f.chance is not None]
            return clear if any_difference(judged, AT_A_LOOK) else Verdict.CANNOT_TELL
    if said == {Verdict.NO_DIFFERENT} and any(map(remains, findings)):
        return Verdict.NO_DIFFERENT
    return Verdict.CANNOT_TELL


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
    elif verdict is Verdict.CANNOT_TELL and (better or worse):
        way = f"{listed(better)} better" if better else f"{listed(worse)} worse"
        lead = f"{_NOT_SHOWN} in all: {way}, but of several things judged one may be so by chance"
    elif verdict is Verdict.CANNOT_TELL and any(finding.settles for finding in findings):
        lead = "Things got better, but it is not shown that the plan did it"
    elif not any(map(_wrong, findings)) and all(map(_known, findings)):
        lead = "Nothing was wrong before or since"
    ordered = sorted(findings, key=lambda finding: _RANK[finding.verdict])
    return " ".join([f"{lead}.", *(_alike(tuple(ordered)))])


def _wrong(finding: Finding) -> bool:
    """Leaks or damaged skin, before or since."""
    return finding.of is not Judged.WEAR and bool(finding.before or finding.after)


def _known(finding: Finding) -> bool:
    return finding.of is Judged.WEAR or None not in (finding.before, finding.after)


def _named(findings: Sequence[Finding], verdict: Verdict) -> tuple[str, ...]:
    return tuple(_NAMES[f.of] for f in findings if f.verdict is verdict)


def _alike(findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """Their texts; what all, or both leaks and wear, lack is given once."""
    findings = tuple({finding.text: finding for finding in findings}.values())
    leaks, wear = (
        next((f.text for f in findings if f.of is of), "") for of in (Judged.LEAKS, Judged.WEAR)
    )
    lack = leaks.removeprefix("Leaks ")
    if lack != wear.removeprefix("Wear "):
        return tuple(f.text for f in findings)
    rest = tuple(f.text for f in findings if f.of is not Judged.WEAR)
    return tuple(f"Leaks and wear {lack}" if text == leaks else text for text in rest)
