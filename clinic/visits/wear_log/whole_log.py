"""The whole wear log of a stoma: what visits recorded and what was entered between them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable
from datetime import date, datetime

from django.db.models import QuerySet
from django.utils import timezone

from clinic import formatting
from clinic.one_reading import once_a_reading
from clinic.patients.models import Stoma
from clinic.visits.models import Assessment, Visit, WearEpisode, WornBarrier
from clinic.visits.wear_log.merge import PAGE, Claim, Logged, merge

__all__ = ["Claim", "Logged", "log_of", "log_until", "logs_of"]


def log_of(stoma: Stoma) -> tuple[Logged, ...] | None:
    """Every barrier recorded of ``stoma``, oldest first; None: a log was never kept.

    Rows of the log page and of visits, drafts included, merged by the rule of ``merge``.
    Two queries.
    """
    claims = [*map(of_page, page_rows(stoma.pk)), *visit_claims(stoma.pk)]
    return merge(claims) if claims else None


def logs_of(stomas: Collection[int]) -> dict[int, tuple[Logged, ...]]:
    """The same of many stomas by their ids; where a log was never kept, there is none. Two
    queries, however many they are."""
    claims: dict[int, list[Claim]] = defaultdict(list)
    for row in WornBarrier.objects.filter(stoma__in=stomas).select_related("entered_by"):
        claims[row.stoma_id].append(of_page(row))
    for episode in _at_visits().filter(assessment__stoma__in=stomas):
        claims[episode.assessment.stoma_id].append(_of_visit(episode, episode.assessment.visit))
    return {stoma: merge(found) for stoma, found in claims.items()}


@once_a_reading
def page_rows(stoma: int) -> tuple[WornBarrier, ...]:
    """Rows of the log page of a stoma by its id, with who entered them."""
    return tuple(WornBarrier.objects.filter(stoma=stoma).select_related("entered_by"))


@once_a_reading
def visit_claims(stoma: int) -> tuple[Claim, ...]:
    """What the visits of a stoma by its id recorded; a discarded draft recorded nothing."""
    rows = _at_visits().filter(assessment__stoma=stoma)
    return tuple(_of_visit(row, row.assessment.visit) for row in rows)


def _at_visits() -> QuerySet[WearEpisode]:
    rows = WearEpisode.objects.exclude(assessment__visit__state="discarded")
    return rows.select_related("assessment__visit")


def log_until(assessment: Assessment) -> tuple[Logged, ...]:
    """Barriers worn since the last signed visit, as known on the day of this one.

    The assessment's own rows come first, in their own order, each with what the log page knows
    of the same barrier; then what is only on the log page. Two queries at most.
    """
    day = timezone.localdate(assessment.visit.happened_at)
    own = [_of_visit(row, assessment.visit) for row in assessment.wear_rows.all()]
    merged = merge([*own, *_since_last_visit(assessment, day)])
    place = {claim.row: number for number, claim in enumerate(own)}
    return tuple(sorted(merged, key=lambda b: min(place.get(row, len(own)) for row in b.rows)))


def _since_last_visit(assessment: Assessment, day: date) -> Iterable[Claim]:
    """Page rows put on by ``day`` and not yet off before the last signed visit.

    What came off on the very day of that visit was seen there, unless it was put on that day.
    """
    rows = [row for row in page_rows(assessment.stoma_id) if row.on <= day]
    if not rows:
        return
    last = _last_signed(assessment.stoma_id, assessment.visit.happened_at, assessment.visit_id)
    since = timezone.localdate(last) if last else date.min
    for row in rows:
        if row.off is None or row.off > since or row.on >= since:
            yield _as_known_on(day, of_page(row))


@once_a_reading
def _last_signed(stoma: int, before: datetime, but: int) -> datetime | None:
    """When a stoma by its id was last seen at a signed visit ``but`` this one."""
    found = Visit.objects.signed().filter(assessments__stoma=stoma, happened_at__lt=before)
    moments = found.exclude(pk=but).order_by("-happened_at")
    return moments.values_list("happened_at", flat=True).first()


def _as_known_on(day: date, claim: Claim) -> Claim:
    """What had not happened yet is left out: a barrier that came off later was still on."""
    if claim.off is None or claim.off <= day:
        return claim
    return Claim(claim.on, None, "", claim.source, claim.row, day, claim.words)


def of_page(row: WornBarrier) -> Claim:
    """What a row of the log page says."""
    who = row.entered_by.get_full_name() or row.entered_by.username
    words = f"entered {formatting.day(row.entered_at)} by {who}"
    seen_on = row.off or row.on
    return Claim(row.on, row.off, row.reason, PAGE, row.pk, seen_on, words, row.circumstance)


def _of_visit(row: WearEpisode, visit: Visit) -> Claim:
    day = timezone.localdate(visit.happened_at)
    words = f"visit of {formatting.day(day)}" + ("" if visit.is_signed else ", not signed")
    seen_on = row.off or max(day, row.on)
    return Claim(
        row.on, row.off, row.reason, str(visit.uuid), row.pk, seen_on, words, row.circumstance
    )
