"""One full assessment, with everything recorded that the planner reads, and its history."""

from __future__ import annotations

from typing import Final

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Abdomen,
    Ability,
    Accessory,
    Bleeding,
    ChangedBy,
    Colour,
    Condition,
    Consistency,
    Construction,
    Contour,
    Crease,
    Degree,
    Findings,
    Firmness,
    History,
    LumenPosition,
    Material,
    Measurement,
    Oedema,
    OpeningKind,
    Output,
    Person,
    Pieces,
    PouchingSystem,
    PouchKind,
    Profile,
    RemovalReason,
    SkinFinding,
    SkinKind,
    Stoma,
    StomaKind,
    Symptom,
    Trial,
    Turgor,
    WearEpisode,
)

_LOW: Final = ClockHours.arc(4, 8)
_LOG: Final = tuple(
    WearEpisode(days, reason)
    for days in (1.5, 2.0, 3.0, 2.5, 3.0, 4.0)
    for reason in (RemovalReason.LEAK, RemovalReason.PLANNED)
)

FULL: Final = Findings(
    person=Person(
        age_years=60,
        sensitivities=frozenset({Material.ALCOHOL}),
        has=frozenset({Condition.DIABETES}),
        has_not=frozenset(Condition) - {Condition.DIABETES},
        dexterity=Ability.LIMITED,
        eyesight=Ability.GOOD,
        changed_by=ChangedBy.SELF,
    ),
    stoma=Stoma(StomaKind.ILEOSTOMY, Construction.END, 400, rod_in_place=False),
    measurement=Measurement(
        length_mm=32.0,
        width_mm=27.0,
        axis_hour=2,
        protrusion_mm=3.0,
        widest_mm=34.0,
        lumen=LumenPosition.OFF_CENTRE,
        lumen_hour=6,
        colour=Colour.PINK_RED,
        turgor=Turgor.MOIST_SOFT,
        oedema=Oedema.NONE,
        junction=(),
        prolapse=(),
        bleeding=Bleeding.ON_WIPING,
        deep_cut=False,
    ),
    skin=(
        SkinFinding(SkinKind.EROSION, _LOW, 0.0, 15.0, False, True, True, True, False, False),
        SkinFinding(SkinKind.SATELLITES, ClockHours.of(4, 5), 10.0, 25.0, True, moist=True),
        SkinFinding(SkinKind.STRIPPING, ClockHours.of(3, 9), 35.0, 45.0, moist=False),
    ),
    abdomen=Abdomen(
        Contour.ROUNDED, Firmness.SOFT, (Crease(ClockHours.of(3, 9), 6.0), Crease(_LOW, 3.0)), ()
    ),
    output=Output(
        volume_ml_24h=900.0,
        consistency=Consistency.LIQUID,
        watery_for_hours=0.0,
        hours_without_output=1.0,
        urine_signs=frozenset(),
        absent=frozenset(Symptom),
        pain_0_10=3,
    ),
    system=PouchingSystem(
        Pieces.TWO,
        Profile.FLAT,
        None,
        Degree.MORE,
        Degree.MORE,
        38.0,
        36.0,
        OpeningKind.CUT_TO_FIT,
        PouchKind.DRAINABLE,
        frozenset({Accessory.PROTECTANT, Accessory.PASTE}),
        erosion=_LOW,
        leak=_LOW,
    ),
    wear=_LOG,
)

HISTORY: Final = History(
    previous=(FULL, FULL),
    trials=(
        Trial(frozenset({"flat_firm", "two_piece", "cut_to_fit"}), helped=False),
        Trial(frozenset({"flat_flexible", "two_piece", "paste"}), helped=False),
    ),
    prescriber_agreed_antifungal=True,
)
