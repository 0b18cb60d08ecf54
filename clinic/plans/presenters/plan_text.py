"""A whole plan as lines of text, reasons and sources included."""

from collections.abc import Iterable, Iterator

from clinic.plans.decidables import own_recommendations
from clinic.plans.presenters.panel import CAUTION, sizes
from clinic.plans.presenters.sources import citations
from planning import Plan
from planning.results.plan import Reason


def plan_lines(plan: Plan) -> list[str]:
    """What to do first, then why, then how."""
    return [
        CAUTION,
        f"Rules {plan.rule_set}. {plan.urgency.value.replace('_', ' ').capitalize()}.",
        "",
        plan.headline,
        *_flags(plan),
        *_recommendations(plan),
        *_causes(plan),
        *_block("Sizes", (f"{label}: {words}" for label, words in sizes(plan.dimensions))),
        *_block("Technique", (f"{i}. {s.text}" for i, s in enumerate(plan.steps, 1))),
        *_block("Supplies", (q.text for q in plan.quantities)),
        *_block("Next visit", [plan.follow_up.text]),
        *_block("Please check", (n.text for n in plan.notices)),
        *_block("Missing information that matters", (m.text for m in plan.missing)),
    ]


def _flags(plan: Plan) -> Iterator[str]:
    for flag in plan.red_flags:
        yield ""
        yield f"! {flag.text}. Refer to {flag.refer_to}. {flag.do}"
        yield from _because(flag.because)


def _recommendations(plan: Plan) -> Iterator[str]:
    for item in own_recommendations(plan):
        yield ""
        yield f"{item.change.value.upper()}  {item.text}"
        if item.caution:
            yield f"    Caution: {item.caution}"
        yield from _because(item.because)


def _because(reasons: Iterable[Reason]) -> Iterator[str]:
    for reason in reasons:
        yield f"    because {reason.text} [{'; '.join(citations(reason.sources))}]"


def _causes(plan: Plan) -> Iterator[str]:
    ranked = plan.causes.causes
    yield from _block("Likely causes", (f"{c.of.value}: {c.title}" for c in ranked))
    if plan.causes.would_tell_apart:
        yield f"  Look next: {plan.causes.would_tell_apart}"


def _block(title: str, lines: Iterable[str]) -> Iterator[str]:
    listed = list(lines)
    if listed:
        yield ""
        yield f"{title}:"
        yield from (f"  {line}" for line in listed)
