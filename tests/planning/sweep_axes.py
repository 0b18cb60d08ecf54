"""Axis by axis, the values that a state of the sweep may take.

Dangers are few on each axis: with one on every axis, every state would be an emergency.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Abdomen,
    Ability,
    Accessory,
    Baseline,
    BaselineKind,
    Begun,
    Bleeding,
    Bulge,
    Calibre,
    ChangedBy,
    Circumstance,
    Colour,
    ColourPart,
    Condition,
    Consistency,
    Contour,
    ConvexDepth,
    Crease,
    Degree,
    Discharge,
    Firmness,
    History,
    LeakCount,
    LoopOpenings,
    LumenPosition,
    Material,
    Medicine,
    Oedema,
    OpeningKind,
    OtherStoma,
    Output,
    Person,
    Pieces,
    PouchBlood,
    PouchingSystem,
    PouchKind,
    Product,
    Profile,
    Prolapse,
    RemovalReason,
    Separation,
    SkinKind,
    StomaKind,
    Symptom,
    Trial,
    UrineSign,
    Vitals,
    WearEpisode,
    Weighing,
    Wound,
)
from tests.planning.builders import ALL, INTACT, LOW, WELL, raw, seen

_SIDE = ClockHours.of(2, 3, 4)
_FLAT = WELL.system or PouchingSystem()
_CONVEX = replace(
    _FLAT,
    profile=Profile.CONVEX,
    convex_depth_mm=3.0,
    compressibility=Degree.MORE,
    flexibility=None,
    accessories=frozenset({Accessory.RING, Accessory.BELT}),
)

#: Axis by axis: the values a state may take.
AXES: Final[dict[str, tuple[Any, ...]]] = {
    "protrusion": (25.0, 12.0, 4.0, 0.0, -6.0, None),
    "kind": (StomaKind.ILEOSTOMY, StomaKind.COLOSTOMY, StomaKind.UROSTOMY),
    "days": (400, 40, 20, None),
    "skin": (
        (),
        None,
        (raw(),),
        (raw(ALL, product_outline=True, itch=True),),
        (seen(SkinKind.SATELLITES, moist=True),),
        (seen(SkinKind.PRESSURE_MARK, ClockHours.of(3, 9)),),
        (seen(SkinKind.UNDERMINED_ULCER),),
        (seen(SkinKind.DILATED_VEINS, ALL),),
        (seen(SkinKind.ULCER, ClockHours.of(9)),),
        (seen(SkinKind.HARD_LUMP), raw()),
        (seen(SkinKind.MACERATION), seen(SkinKind.HAIR_PUSTULES)),
        (seen(SkinKind.STRIPPING, ClockHours.of(3)), seen(SkinKind.SPREADING_WARMTH)),
        (seen(SkinKind.STRIPPING, ClockHours.of(3)),),
        (seen(SkinKind.ERYTHEMA),),
        (seen(SkinKind.ERYTHEMA, moist=True, itch=True), seen(SkinKind.SATELLITES)),
        (seen(SkinKind.PRESSURE_MARK, ClockHours.of(3, 9), stays_min=45.0, pain=False),),
        (seen(SkinKind.PRESSURE_MARK, ClockHours.of(3), fades_min=10.0, pain=False),),
        (seen(SkinKind.BRUISE, ClockHours.of(9)),),
        (
            seen(
                SkinKind.WEAL,
                ClockHours.of(3),
                inner_mm=60.0,
                outer_mm=90.0,
                minutes_after_contact=20.0,
                outline_of=Product.BELT,
            ),
        ),
        (seen(SkinKind.WEAL, minutes_after_contact=30.0, itch=True),),
        (seen(SkinKind.PIGMENTED_SPOT, ClockHours.of(2), changing=False, across_mm=3.0),),
        (seen(SkinKind.PIGMENTED_SPOT, ClockHours.of(2), across_mm=7.0),),
        (seen(SkinKind.SETTLED_SCAR, ClockHours.of(5), pain=False, enlarging=False),),
        (
            seen(
                SkinKind.BLISTERS,
                ALL,
                inner_mm=38.0,
                outer_mm=46.0,
                itch=True,
                product_outline=True,
                outline_of=Product.TAPE_BORDER,
            ),
        ),
        (seen(SkinKind.FISTULA, ClockHours.of(4)),),
        (seen(SkinKind.FISTULA, ClockHours.of(12), inner_mm=60.0, outer_mm=65.0, pain=False),),
        (seen(SkinKind.WARTY, ALL), raw()),
        (seen(SkinKind.GRANULOMA, ClockHours.of(6), changing=False),),
        (seen(SkinKind.SCALE, ALL, itch=True),),
        (seen(SkinKind.ABSCESS, ClockHours.of(8)),),
        (seen(SkinKind.ERYTHEMA, numb_or_crackling=True, hours_to_spread=6.0, pain_0_10=8),),
        (seen(SkinKind.ULCER, ClockHours.of(8), flat_edge=True, days=20.0, pain_0_10=2),),
    ),
    "system": (
        None,
        _FLAT,
        replace(_FLAT, leak=LOW),
        replace(_FLAT, leak=LOW, opening_length_mm=26.0, opening_width_mm=26.0),
        replace(_FLAT, leak=_SIDE, accessories=frozenset({Accessory.PROTECTANT})),
        replace(_CONVEX, leak=INTACT),
        replace(_CONVEX, leak=LOW),
        replace(_FLAT, leak=LOW, pouch=PouchKind.CLOSED, accessories=None),
        replace(_FLAT, pouch=PouchKind.CLOSED, pieces=Pieces.ONE),
        replace(
            _FLAT, tape_border=True, begun=(Begun(Product.TAPE_BORDER, 10.0),), clear_pouch=True
        ),
        replace(_FLAT, leak=LOW, lifts=_SIDE, load=_SIDE, placed_towards=2),
        replace(_FLAT, leak=INTACT, erosion=LOW, usual_wear_days=5.0, filter=True),
        replace(_FLAT, leak_count=LeakCount(1, 14), leak=LOW, opening_kind=OpeningKind.MOULDABLE),
        replace(_FLAT, leak=None, erosion=None, leak_count=LeakCount(4, 10)),
        replace(_FLAT, presses=True, opening_length_mm=30.0, opening_width_mm=29.0),
        replace(_FLAT, opening_kind=OpeningKind.PRE_CUT, flexibility=Degree.LESS),
        replace(_CONVEX, leak=INTACT, belt_tight=True),
        replace(
            _CONVEX,
            convex_depth_mm=None,
            convex_depth=ConvexDepth.DEEP,
            leak=INTACT,
            compressibility=Degree.LESS,
            accessories=frozenset(),
        ),
        replace(
            _FLAT,
            leak=LOW,
            accessories=frozenset(
                {Accessory.POWDER, Accessory.PROTECTANT, Accessory.STRIP, Accessory.PASTE}
            ),
        ),
        replace(
            _FLAT,
            accessories=frozenset(
                {Accessory.SUPPORT_GARMENT, Accessory.BELT, Accessory.TAPE, Accessory.POUCH_COVER}
            ),
        ),
        replace(
            _FLAT,
            leak=INTACT,
            profile=Profile.CONCAVE,
            flexibility=None,
            accessories=frozenset({Accessory.THICKENER, Accessory.LUBRICANT, Accessory.HALF_RING}),
        ),
        replace(
            _FLAT,
            pouch=PouchKind.TAP,
            accessories=frozenset(
                {Accessory.NIGHT_BAG, Accessory.ANTIFUNGAL_POWDER, Accessory.ADHESIVE_REMOVER}
            ),
        ),
    ),
    "abdomen": (
        WELL.abdomen,
        Abdomen(firmness=Firmness.SOFT, creases=(), bulges=()),
        Abdomen(creases=(Crease(ClockHours.of(3, 9), 6.0),), bulges=()),
        Abdomen(creases=(Crease(LOW, 12.0),), bulges=(), contour=Contour.PENDULOUS),
        Abdomen(creases=(), bulges=(Bulge(_SIDE, 15.0, 60.0, True, False),)),
        Abdomen(creases=(), bulges=(Bulge(_SIDE),), firmness=Firmness.FIRM),
        Abdomen(contour=Contour.ROUNDED),
    ),
    "stoma": (
        {},
        {"lumen": LumenPosition.SKIN_LEVEL},
        {"lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 6},
        {"prolapse": (Prolapse(40.0, True, False),), "widest_mm": 45.0, "protrusion_mm": 60.0},
        {"junction": (Separation(LOW, 5.0, True, False),)},
        {"colour": Colour.DUSKY},
        {"length_mm": None},
        {"junction": (Separation(LOW, 1.0, True, False, contaminated=False),)},
        {"junction": (Separation(LOW, 12.0, True, False, contaminated=True, fascia_seen=False),)},
        {"loop": LoopOpenings(2.0, 6, 14.0), "protrusion_sitting_mm": 2.0},
        {
            "calibre": Calibre.INDEX_FINGER,
            "oedema": Oedema.NONE,
            "bleeds_on_touch": True,
            "bowel_outside": False,
            "deep_cut": False,
            "rubbed": False,
        },
        {"calibre": Calibre.FINGERTIP},
        {"bowel_outside": True},
        {"bleeding": Bleeding.ON_WIPING, "bleeding_stops_min": 2.0},
        {"bleeding": Bleeding.OOZE_AT_JUNCTION},
        {"bleeding_stopped_days": 5.0},
        {"oedema": Oedema.MILD},
        {"rubbed": True},
        {"colour": Colour.DUSKY, "colour_known": True, "bleeds_on_touch": True},
        {"colour_parts": (ColourPart(Colour.YELLOW_SLOUGH, ClockHours.of(6)),)},
        {
            "prolapse": (Prolapse(60.0, True, False, new=False, growing=False),),
            "widest_mm": 32.0,
            "protrusion_mm": 85.0,
            "protrusion_standing_mm": 95.0,
        },
        {"prolapse": (Prolapse(40.0, False, False, new=True),), "protrusion_mm": 60.0},
        {"length_error_mm": 1.5, "width_error_mm": 1.5},
        {"colour": None, "turgor": None, "junction": None, "prolapse": None, "bleeding": None},
    ),
    "person": (
        WELL.person,
        Person(),
        Person(sensitivities=frozenset({Material.PROTECTANT})),
        Person(sensitivities=frozenset({Material.RING, Material.LATEX})),
        Person(sensitivities=frozenset({Material.PASTE, Material.BARRIER_ADHESIVE})),
        Person(has=frozenset({Condition.LIVER_DISEASE})),
        Person(sensitivities=frozenset(), has_not=frozenset(Condition)),
        Person(has=frozenset({Condition.PREGNANT}), pregnant_weeks=20),
        Person(has=frozenset({Condition.LAST_WEEKS_OF_LIFE, Condition.CANCER})),
        Person(has=frozenset({Condition.RADIOTHERAPY_NOW, Condition.RADIOTHERAPY_ABDOMEN})),
        Person(has=frozenset({Condition.FRAIL, Condition.DEMENTIA}), changed_by=ChangedBy.CARER),
        Person(has=frozenset({Condition.DIABETES}), dexterity=Ability.ONE_HAND),
        Person(
            has=frozenset({Condition.PSORIASIS_OR_ECZEMA}),
            eyesight=Ability.NONE,
            changed_by=ChangedBy.WITH_HELP,
        ),
        Person(
            has=frozenset({Condition.KIDNEY_DISEASE}),
            weight_kg=62.0,
            sensitivities=frozenset({Material.POWDER, Material.TAPE}),
        ),
        Person(sensitivities=frozenset({Material.ADHESIVE_REMOVER, Material.POUCH_COVER})),
    ),
    # One thing more, beside what the other axes say.
    "besides": (
        {},
        {"output": Output(volume_ml_24h=1200.0)},
        {"output": Output(pain_0_10=8)},
        {"output": Output(volume_ml_24h=900.0, usual_ml_24h=850.0, days_at_volume=10.0)},
        {"output": Output(consistency=Consistency.FORMED, stools_per_day=2.0, tablets_whole=False)},
        {"output": Output(hours_without_output=72.0)},
        {"output": Output(tablets_whole=True)},
        {"output": Output(pouch_blood=PouchBlood.FOOD_COLOUR)},
        {"output": Output(pouch_blood=PouchBlood.NONE, discharge=Discharge.MUCUS)},
        {"output": Output(discharge=Discharge.STOOL_AGAIN)},
        {"output": Output(urine_ml_24h=1200.0, hours_without_urine=2.0)},
        {"output": Output(urine_ph=8.0, urine_signs=frozenset({UrineSign.CRYSTALS}), stents=0)},
        {"output": Output(urine_signs=frozenset(), stents=2, stent_out_early=False)},
        {"output": Output(urine_signs=frozenset({UrineSign.CLOUDY}))},
        {"output": Output(consistency=Consistency.WATERY, watery_for_hours=30.0)},
        {"absent": frozenset(Symptom), "medicines": frozenset(), "wounds": (), "other_stomas": ()},
        {"absent": frozenset(Symptom), "vitals": Vitals(36.8, 36.8, 72.0, 14.0, 124.0)},
        {
            "absent": frozenset({Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN}),
            "output": Output(hours_without_output=0.5),
            "present": frozenset({Symptom.MILD_CRAMPS}),
        },
        {"present": frozenset({Symptom.BALLOONING})},
        {"present": frozenset({Symptom.THICK_STICKING_STOOL})},
        {
            "present": frozenset({Symptom.THICK_STICKING_STOOL, Symptom.VOMITING}),
            "medicines": frozenset({Medicine.OPIOID, Medicine.IRON}),
        },
        {"present": frozenset({Symptom.MILD_CRAMPS})},
        {"present": frozenset({Symptom.VOMITING})},
        {"present": frozenset({Symptom.THIRST})},
        {"present": frozenset({Symptom.RIBBON_STOOL, Symptom.EXPLOSIVE_OUTPUT})},
        {"present": frozenset({Symptom.RESTLESS})},
        {"vitals": Vitals(temperature_c=37.4, antipyretic_hours=3.0)},
        {"vitals": Vitals(pulse=104.0)},
        {"vitals": Vitals(temperature_c=38.3)},
        {"medicines": frozenset({Medicine.NICORANDIL, Medicine.STEROID})},
        {"medicines": frozenset({Medicine.ANTICOAGULANT})},
        {"medicines": frozenset({Medicine.DIURETIC, Medicine.COATED_OR_SLOW_RELEASE})},
        {"wounds": (Wound(_SIDE, 20.0, 30.0, 12.0, 4.0, False, False, False),)},
        {"wounds": (Wound(_SIDE, pus=True),)},
        {"other_stomas": (OtherStoma(_SIDE, 22.0, 24.0, 22.0, rests=True),)},
        {"other_stomas": (OtherStoma(_SIDE, 60.0, rests=False),)},
        {"wear": ()},
        {"wear": (WearEpisode(4.0, RemovalReason.PLANNED),) * 12},
        {
            "wear": (
                WearEpisode(2.0, RemovalReason.LEAK, Circumstance.SOAKED),
                WearEpisode(5.0, RemovalReason.PLANNED),
            )
        },
        {"wear": (WearEpisode(2.0, RemovalReason.LEAK),) * 6},
        {
            "wear": (
                WearEpisode(8.0, RemovalReason.PLANNED),
                WearEpisode(1.0, RemovalReason.ITCH_OR_PAIN),
            )
        },
    ),
    "history": (
        History(),
        History(specialist_convexity_assessment=True, convexity_reason="Leaks."),
        History(trials=(Trial(frozenset({"flat_flexible", "ring"}), helped=False),)),
        History(trials=(Trial(frozenset({"belt"}), hurt=frozenset({"belt", "powder"})),)),
        History(prescriber_agreed_antifungal=True),
        History(
            baselines=tuple(
                Baseline(kind, "stoma nurse")
                for kind in (
                    BaselineKind.BULGE,
                    BaselineKind.HEALED_PYODERMA,
                    BaselineKind.VARICES,
                    BaselineKind.CONTACT_BLEEDING,
                    BaselineKind.LIVER_DISEASE,
                )
            )
        ),
        History(
            baselines=(
                Baseline(BaselineKind.OUTPUT_TARGET, "surgeon", 1200.0, 900.0, 800.0),
                Baseline(BaselineKind.PROLAPSE, "surgeon", 80.0, reducible=True),
                Baseline(BaselineKind.HEIGHT, "stoma nurse", -6.0),
                Baseline(BaselineKind.DARK_STOMA, "surgeon"),
            )
        ),
        History(
            baselines=(
                Baseline(BaselineKind.SEPARATION, "surgeon", 12.0),
                Baseline(BaselineKind.NARROW_LUMEN, "surgeon"),
                Baseline(BaselineKind.PINK_URINE_OR_MUCUS, "urologist"),
                Baseline(BaselineKind.CONFUSION, "family doctor"),
                Baseline(BaselineKind.THICK_SKIN, "stoma nurse", review_in_days=-1.0),
            )
        ),
        History(
            trials=(
                Trial(
                    frozenset({"soft_convex_shallow", "ring"}), helped=False, barriers=6, days=20.0
                ),
            ),
            weighings=(Weighing(14, 66.0),),
        ),
        History(
            trials=(
                Trial(frozenset({"flat_flexible", "strip"}), partly=True, barriers=1, days=3.0),
            )
        ),
    ),
}
