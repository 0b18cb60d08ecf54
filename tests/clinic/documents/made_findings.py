"""Findings for a sweep over what the planner really says to patients."""

from collections.abc import Iterator
from dataclasses import replace

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Abdomen,
    Accessory,
    Bleeding,
    Bulge,
    Colour,
    Consistency,
    Contour,
    Crease,
    Findings,
    Material,
    Measurement,
    OpeningKind,
    Output,
    Person,
    Pieces,
    PouchingSystem,
    PouchKind,
    Profile,
    Prolapse,
    RemovalReason,
    Separation,
    SkinFinding,
    SkinKind,
    Stoma,
    StomaKind,
    Symptom,
    Turgor,
    UrineSign,
    WearEpisode,
)

LOW = ClockHours.arc(5, 7)
SOUND = Findings(
    person=Person(sensitivities=frozenset(), age_years=40),
    stoma=Stoma(StomaKind.ILEOSTOMY, days_since_surgery=400),
    measurement=Measurement(
        length_mm=30,
        width_mm=28,
        protrusion_mm=22,
        colour=Colour.PINK_RED,
        turgor=Turgor.MOIST_SOFT,
        junction=(),
        prolapse=(),
        bleeding=Bleeding.NONE,
        deep_cut=False,
    ),
    skin=(),
    abdomen=Abdomen(contour=Contour.ROUNDED, creases=(), bulges=()),
    output=Output(volume_ml_24h=700, consistency=Consistency.PASTE),
    system=PouchingSystem(
        pieces=Pieces.ONE,
        profile=Profile.FLAT,
        opening_kind=OpeningKind.CUT_TO_FIT,
        opening_length_mm=34,
        opening_width_mm=32,
        pouch=PouchKind.DRAINABLE,
        accessories=frozenset(),
        erosion=ClockHours(),
        leak=ClockHours(),
    ),
    wear=(WearEpisode(4, RemovalReason.PLANNED),),
)


def cases() -> Iterator[tuple[str, Findings]]:
    """Named findings: sound, then every danger, every kind of skin, every stoma."""
    yield "sound", SOUND
    yield from _stomas()
    yield from _skin()
    yield from _dangers()
    yield from _fit()


def _stomas() -> Iterator[tuple[str, Findings]]:
    urine = Output(consistency=Consistency.URINE, urine_signs=frozenset({UrineSign.CRYSTALS}))
    for kind in StomaKind:
        output = urine if kind is StomaKind.UROSTOMY else SOUND.output
        leaks = _leaks(replace(SOUND, stoma=Stoma(kind, days_since_surgery=400), output=output))
        yield f"leaking {kind}", leaks
        yield f"new {kind}", replace(leaks, stoma=Stoma(kind, days_since_surgery=20))


def _leaks(findings: Findings) -> Findings:
    assert findings.system is not None
    return replace(
        findings,
        skin=(SkinFinding(SkinKind.EROSION, LOW, 0, 20, burning=True, moist=True),),
        system=replace(findings.system, opening_length_mm=42, erosion=LOW, leak=LOW),
        wear=(WearEpisode(2, RemovalReason.LEAK),),
    )


def _skin() -> Iterator[tuple[str, Findings]]:
    for kind in SkinKind:
        for moist, itch in ((True, False), (False, True)):
            found = SkinFinding(kind, LOW, 0, 20, itch=itch, pain=moist, moist=moist)
            yield f"{kind} {'wet' if moist else 'itchy'}", replace(SOUND, skin=(found,))
    outline = SkinFinding(
        SkinKind.ERYTHEMA, ClockHours.all_round(), 2, 40, itch=True, product_outline=True
    )
    yield "reaction", replace(SOUND, skin=(outline,))
    assert SOUND.system is not None
    for accessory in (Accessory.PASTE, Accessory.PROTECTANT, Accessory.POWDER):
        worn = replace(SOUND.system, accessories=frozenset({accessory}))
        yield f"reaction with {accessory}", replace(SOUND, skin=(outline,), system=worn)


def _dangers() -> Iterator[tuple[str, Findings]]:
    measured = SOUND.measurement
    for colour in Colour:
        yield (
            f"colour {colour}",
            replace(_leaks(SOUND), measurement=replace(measured, colour=colour)),
        )
    for bleeding in Bleeding:
        yield (
            f"bleeding {bleeding}",
            replace(SOUND, measurement=replace(measured, bleeding=bleeding)),
        )
    for symptom in Symptom:
        yield (
            f"symptom {symptom}",
            replace(SOUND, output=Output(hours_without_output=7, present=frozenset({symptom}))),
        )
    for volume in (1200, 1700, 2300):
        yield f"{volume} mL", replace(SOUND, output=Output(volume, Consistency.WATERY, 30))
    for back in (True, False, None):
        long = Prolapse(extra_length_mm=40, reducible=back)
        yield (
            f"prolapse back {back}",
            replace(SOUND, measurement=replace(measured, prolapse=(long,), widest_mm=40)),
        )
    gap = Separation(LOW, depth_mm=5, base_visible=True)
    yield "separation", replace(SOUND, measurement=replace(measured, junction=(gap,)))
    yield "cut", replace(SOUND, measurement=replace(measured, deep_cut=True))


def _fit() -> Iterator[tuple[str, Findings]]:
    leaks = _leaks(SOUND)
    for height in (-6.0, 0.0, 4.0, 9.0):
        low = replace(leaks.measurement, protrusion_mm=height)
        yield f"height {height}", replace(leaks, measurement=low)
    bulge = Bulge(ClockHours.arc(1, 4), height_mm=22, width_mm=70, reducible=True)
    yield "bulge", replace(leaks, abdomen=Abdomen(bulges=(bulge,), creases=()))
    crease = Crease(ClockHours.of(3, 9), depth_mm=4)
    yield "crease", replace(leaks, abdomen=Abdomen(creases=(crease,), bulges=()))
    hangs = Abdomen(contour=Contour.PENDULOUS, creases=(crease,), bulges=())
    yield "hanging", replace(leaks, abdomen=hangs)
    sensitive = replace(SOUND.person, sensitivities=frozenset({Material.RING, Material.POWDER}))
    yield "sensitive", replace(leaks, person=sensitive)
