"""One assessment's rows to the planner's findings, part by part."""

from datetime import date

from django.utils import timezone

from clinic.plans.bridge.charted import Charted, charted, numbers
from clinic.plans.bridge.nearby import other_stomas_of, wounds_of
from clinic.plans.bridge.output import output_of
from clinic.plans.bridge.person import blood_tests_of, person_of, stoma_of
from clinic.plans.bridge.stored_values import (
    hours,
    number,
    some_hours,
    two_groups,
    word,
    word_set,
)
from clinic.visits import models
from clinic.visits.choices import REMOTE, Junction, OtherSupply, Presence, SkinState
from clinic.visits.wear_log.whole_log import Logged, log_until
from planning.inputs import findings as f

#: A photo's figures are filled in to a tenth of a mm.
_TENTH = 0.1


def findings_of(assessment: models.Assessment) -> f.Findings:
    """What this assessment recorded; a part that was not looked at is unknown throughout."""
    day = timezone.localdate(assessment.visit.happened_at)
    log, values = log_until(assessment), charted(assessment)
    return f.Findings(
        person=person_of(assessment, day, numbers(values, "person", f.Person)),
        stoma=stoma_of(assessment.stoma, assessment, day),
        measurement=_measurement(assessment, values),
        skin=_skin(assessment),
        abdomen=_abdomen(assessment),
        output=output_of(getattr(assessment, "output", None), values, blood_tests_of(assessment)),
        system=_system(assessment, values),
        wear=tuple(_worn(barrier, day) for barrier in _counted(log)) or None,
        wounds=wounds_of(assessment),
        other_stomas=other_stomas_of(assessment),
        wear_left_out=len(log) - len(_counted(log)),
        remote=assessment.visit.held in REMOTE if assessment.visit.held else None,
    )


def row_worn(assessment: models.Assessment, place: int) -> models.WearEpisode | None:
    """The row of the visit behind the barrier at ``place`` of the findings' wear; None: it is
    on the log page alone."""
    rows = _counted(log_until(assessment))[place].rows
    return next((row for row in assessment.wear_rows.all() if row.pk in rows), None)


def _measurement(assessment: models.Assessment, values: Charted) -> f.Measurement:
    row = getattr(assessment, "measurement", None)
    parts = _colour_parts(assessment)
    if row is None:
        return f.Measurement(colour_parts=parts)
    length_error, width_error = _photo_errors(row)
    return f.Measurement(
        **numbers(values, "measurement", f.Measurement),
        loop=_loop(row, values),
        # An axis through 9 is the axis through 3: the planner names it by the hour 1 to 6.
        axis_hour=(row.axis_hour - 1) % 6 + 1 if row.axis_hour else None,
        radii_mm=tuple(float(r) for r in row.radii_mm) if row.radii_mm else None,
        lumen=word(f.LumenPosition, row.lumen),
        lumen_hour=row.lumen_hour,
        colour=word(f.Colour, row.colour),
        colour_parts=parts,
        turgor=word(f.Turgor, row.turgor),
        oedema=word(f.Oedema, row.oedema),
        junction=_junction(row),
        prolapse=_prolapse(row),
        bleeding=word(f.Bleeding, row.bleeding),
        deep_cut=row.deep_cut,
        colour_known=row.colour_known,
        bleeds_on_touch=row.bleeds_on_touch,
        rubbed=row.rubbed,
        calibre=word(f.Calibre, row.calibre),
        bowel_outside=row.bowel_outside,
        length_error_mm=length_error,
        width_error_mm=width_error,
    )


def _colour_parts(assessment: models.Assessment) -> tuple[f.ColourPart, ...] | None:
    """None where no part is charted: that the colour is the same all round is never asked."""
    parts = (
        f.ColourPart(f.Colour(part.colour), some_hours(part.hours))
        for part in assessment.colour_rows.all()
    )
    return tuple(parts) or None


def _loop(row: models.StomaMeasurement, values: Charted) -> f.LoopOpenings | None:
    heights = numbers(values, "measurement.loop", f.LoopOpenings)
    if not heights and row.working_hour is None:
        return None
    return f.LoopOpenings(**heights, working_hour=row.working_hour)


def _photo_errors(row: models.StomaMeasurement) -> tuple[float | None, float | None]:
    """Of length and width, either way, while both still are what a photo gave; a figure typed
    since was measured otherwise."""
    if row.length_mm is None or row.width_mm is None:
        return None, None
    measured = models.PhotoMeasurement.objects.filter(photo__assessment=row.assessment_id)
    for result in measured.order_by("-at").values_list("result", flat=True):
        (length, length_error), (width, width_error) = result["length_mm"], result["width_mm"]
        if max(abs(float(row.length_mm) - length), abs(float(row.width_mm) - width)) < _TENTH:
            return float(length_error), float(width_error)
    return None, None


def _junction(row: models.StomaMeasurement) -> tuple[f.Separation, ...] | None:
    if row.junction != Junction.SEPARATED:
        return () if row.junction == Junction.INTACT else None
    return (
        f.Separation(
            hours=some_hours(row.separation_hours),
            depth_mm=number(row.separation_depth_mm),
            base_visible=row.separation_base_visible,
            effluent_under_skin=row.separation_undermined,
            contaminated=row.separation_contaminated,
            fascia_seen=row.separation_fascia_seen,
        ),
    )


def _prolapse(row: models.StomaMeasurement) -> tuple[f.Prolapse, ...] | None:
    if row.prolapse != Presence.PRESENT:
        return () if row.prolapse == Presence.NONE else None
    return (
        f.Prolapse(
            extra_length_mm=number(row.prolapse_extra_mm),
            reducible=row.prolapse_reducible,
            painful=row.prolapse_painful,
            new=row.prolapse_new,
            growing=row.prolapse_growing,
        ),
    )


def _skin(assessment: models.Assessment) -> tuple[f.SkinFinding, ...] | None:
    rows = tuple(_skin_finding(row) for row in assessment.skin_findings.all())
    looked = getattr(assessment, "skin_assessment", None)
    if rows:
        return rows
    return () if looked is not None and looked.state == SkinState.INTACT else None


def _skin_finding(row: models.SkinFinding) -> f.SkinFinding:
    return f.SkinFinding(
        kind=f.SkinKind(row.kind),
        hours=some_hours(row.hours),
        inner_mm=number(row.inner_mm),
        outer_mm=number(row.outer_mm),
        itch=row.itch,
        pain=row.pain,
        burning=row.burning,
        moist=row.moist,
        product_outline=row.product_outline,
        enlarging=row.enlarging,
        outline_of=word(f.Product, row.outline_of),
        hours_to_spread=number(row.hours_to_spread),
        fades_min=number(row.fades_min),
        stays_min=number(row.stays_min),
        minutes_after_contact=number(row.minutes_after_contact),
        days=number(row.days),
        across_mm=number(row.across_mm),
        changing=row.changing,
        numb_or_crackling=row.numb_or_crackling,
        flat_edge=row.flat_edge,
        pain_0_10=row.pain_0_10,
    )


def _abdomen(assessment: models.Assessment) -> f.Abdomen:
    row = getattr(assessment, "abdomen", None) or models.AbdomenAssessment()
    return f.Abdomen(
        contour=word(f.Contour, row.contour),
        firmness=word(f.Firmness, row.firmness),
        creases=_creases(assessment, row.creases),
        bulges=_bulges(row),
    )


def _creases(assessment: models.Assessment, state: str) -> tuple[f.Crease, ...] | None:
    rows = tuple(
        f.Crease(
            hours=some_hours(row.hours),
            depth_mm=number(row.depth_mm),
            postures=word_set(f.Posture, row.postures),
        )
        for row in assessment.crease_rows.all()
    )
    return rows or (() if state == Presence.NONE else None)


def _bulges(row: models.AbdomenAssessment) -> tuple[f.Bulge, ...] | None:
    if row.bulge != Presence.PRESENT:
        return () if row.bulge == Presence.NONE else None
    return (
        f.Bulge(
            hours=some_hours(row.bulge_hours),
            height_mm=number(row.bulge_height_mm),
            width_mm=number(row.bulge_width_mm),
            reducible=row.bulge_reducible,
            painful=row.bulge_painful,
            new=row.bulge_new,
            hard=row.bulge_hard,
            skin_changed=row.bulge_skin_changed,
        ),
    )


def _system(assessment: models.Assessment, values: Charted) -> f.PouchingSystem | None:
    row = getattr(assessment, "system", None)
    begun = _begun(assessment, row)
    if row is None:
        return f.PouchingSystem(begun=begun) if begun else None
    found = numbers(values, "system", f.PouchingSystem)
    if "opening_length_mm" in found:
        # One opening figure alone is a round opening: the form says so beside the second box.
        found.setdefault("opening_width_mm", found["opening_length_mm"])
    accessories, not_asked = two_groups(
        f.Accessory, OtherSupply, row.accessories, row.more_accessories
    )
    return f.PouchingSystem(
        **found,
        pieces=word(f.Pieces, row.pieces),
        profile=word(f.Profile, row.profile),
        compressibility=word(f.Degree, row.compressibility),
        flexibility=word(f.Degree, row.flexibility),
        opening_kind=word(f.OpeningKind, row.opening_kind),
        pouch=word(f.PouchKind, row.pouch),
        accessories=accessories,
        accessories_not_asked=not_asked,
        erosion=hours(row.erosion_hours),
        leak=hours(row.leak_hours),
        convex_depth=word(f.ConvexDepth, row.convex_depth),
        lifts=hours(row.lifts_hours),
        load=hours(row.load_hours),
        placed_towards=row.placed_towards_hour,
        presses=row.presses,
        belt_tight=row.belt_tight,
        tape_border=row.tape_border,
        clear_pouch=row.clear_pouch,
        filter=row.filter,
        begun=begun,
        leak_count=_leak_count(row),
    )


def _begun(
    assessment: models.Assessment, row: models.PouchingSystem | None
) -> tuple[f.Begun, ...] | None:
    """The one begun last, which has columns of its own, and every other."""
    last = [(row.begun_product, row.begun_days)] if row is not None and row.begun_product else []
    others = ((other.product, other.days) for other in assessment.begun_rows.all())
    named = (f.Begun(f.Product(product), number(days)) for product, days in (*last, *others))
    return tuple(named) or None


def _leak_count(row: models.PouchingSystem) -> f.LeakCount | None:
    if row.leaks is None or row.leak_barriers is None:
        return None
    return f.LeakCount(row.leaks, row.leak_barriers)


def _counted(log: tuple[Logged, ...]) -> list[Logged]:
    """Without what contradicts itself: a barrier recorded twice would count as two."""
    return [barrier for barrier in log if not barrier.disputed]


def _worn(barrier: Logged, day: date) -> f.WearEpisode:
    """Still on: worn until the day of the visit, or as long as anybody saw it where a later one
    was put on since."""
    until = barrier.off or (barrier.seen_on if barrier.superseded else day)
    return f.WearEpisode(
        days=float((until - barrier.on).days),
        reason=word(f.RemovalReason, barrier.reason),
        circumstance=word(f.Circumstance, barrier.circumstance),
    )
