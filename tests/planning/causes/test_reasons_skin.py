"""Causes of damaged skin: each reason with findings that call for it and findings that do not."""

from __future__ import annotations

import pytest

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bleeding,
    Bulge,
    Condition,
    Consistency,
    Construction,
    Crease,
    LumenPosition,
    Person,
    Profile,
    RemovalReason,
    Separation,
    SkinFinding,
    SkinKind,
    StomaKind,
    Symptom,
    UrineSign,
    WearEpisode,
)
from tests.planning.builders import ALL, LOW, raw, seen
from tests.planning.causes.reasons import Changes, Row, cause_of, told_apart

K, C = SkinKind, Condition
of = ClockHours.of
SIDE, BELT_LINE = of(2, 3, 4), of(3, 9)
COLOSTOMY: Changes = {"kind": StomaKind.COLOSTOMY}
UROSTOMY: Changes = {"kind": StomaKind.UROSTOMY}
CONVEX: Changes = {"profile": Profile.CONVEX}
BELT = frozenset({Accessory.BELT})
REMOVER = frozenset({Accessory.ADHESIVE_REMOVER})
UNKNOWN_ACCESSORIES: Changes = {"accessories": None}


def skin(*found: SkinFinding, **changes: object) -> Changes:
    return {"skin": found, **changes}


def has(*conditions: Condition) -> Person:
    return Person(has=frozenset(conditions))


def has_not(*conditions: Condition) -> Person:
    return Person(has_not=frozenset(conditions))


def worn(*days: float) -> tuple[WearEpisode, ...]:
    return tuple(WearEpisode(one, RemovalReason.PLANNED) for one in days)


def opening(mm: float) -> Changes:
    """A round opening for a stoma of 30 mm."""
    return {"opening_length_mm": mm, "opening_width_mm": mm}


CALM = raw(burning=False, pain=False)
CONTACT = seen(K.ERYTHEMA, ALL, outer_mm=40.0, product_outline=True)
EFFLUENT: list[Row] = [
    ("irritant_effluent", "The skin is damaged", [skin(raw(LOW))], [skin(raw(SIDE))]),
    (
        "irritant_effluent",
        "The damage follows a crease",
        [skin(raw(BELT_LINE), creases=(Crease(BELT_LINE),))],
        [skin(raw(BELT_LINE)), skin(raw(BELT_LINE), creases=(Crease(of(12)),))],
    ),
    (
        "irritant_effluent",
        "The used barrier let effluent under at the same hours (6 o'clock)",
        [skin(raw(LOW), leak=of(6))],
        [skin(raw(LOW), leak=of(12)), skin(raw(LOW), leak=None)],
    ),
    (
        "irritant_effluent",
        "The lumen points to 6 o'clock",
        [skin(raw(LOW), lumen=LumenPosition.OFF_CENTRE, lumen_hour=6)],
        [skin(raw(LOW), lumen=LumenPosition.OFF_CENTRE), skin(raw(LOW))],
    ),
    (
        "irritant_effluent",
        "The lumen points",
        [skin(raw(LOW), lumen=LumenPosition.OFF_CENTRE, lumen_hour=4)],
        [skin(raw(LOW), lumen=LumenPosition.OFF_CENTRE, lumen_hour=12)],
    ),
    (
        "irritant_effluent",
        "It begins at the edge",
        [skin(raw()), skin(raw(inner_mm=5.0)), skin(raw(inner_mm=12.0), raw())],
        [skin(raw(inner_mm=5.1)), skin(raw(inner_mm=None))],
    ),
    (
        "irritant_effluent",
        "The opening in use leaves skin bare",
        [skin(raw(), **opening(36.4))],
        [skin(raw(), **opening(36.3)), skin(raw(), opening_length_mm=None)],
    ),
    (
        "irritant_effluent",
        "The stoma is too low",
        [skin(raw(), protrusion_mm=mm) for mm in (19.9, 4.0, 0.0, -6.0)],
        [skin(raw(), protrusion_mm=mm) for mm in (20.0, 35.0, None)],
    ),
    (
        "irritant_effluent",
        "The lumen opens at skin level",
        [skin(raw(), lumen=LumenPosition.SKIN_LEVEL)],
        [skin(raw()), skin(raw(), lumen=None)],
    ),
    (
        "irritant_effluent",
        "The output is liquid",
        [skin(raw(), consistency=Consistency.LIQUID), skin(raw(), volume_ml_24h=1000.0)],
        [skin(raw()), skin(raw(), consistency=Consistency.SOFT, volume_ml_24h=999.0)],
    ),
    (
        "irritant_effluent",
        "Irritation is more frequent with an ileostomy",
        [skin(raw()), skin(raw(), kind=StomaKind.JEJUNOSTOMY)],
        [skin(raw(), **COLOSTOMY), skin(raw(), **UROSTOMY)],
    ),
    (
        "irritant_effluent",
        "It burns or hurts",
        [skin(raw()), skin(raw(burning=False, pain=True)), skin(CALM, raw(SIDE))],
        [skin(CALM)],
    ),
]
OTHERS: list[Row] = [
    # moisture
    (
        "moisture",
        "The barrier is worn for more than 7 days",
        [skin(seen(K.MACERATION), wear=worn(7.1))],
        [skin(seen(K.MACERATION), wear=worn(7.0)), skin(seen(K.MACERATION))],
    ),
    (
        "moisture",
        "Urine keeps the skin wet",
        [skin(seen(K.MACERATION), **UROSTOMY)],
        [skin(seen(K.MACERATION))],
    ),
    (
        "moisture",
        "The barrier sealed",
        [skin(seen(K.MACERATION))],
        [skin(seen(K.MACERATION), leak=LOW), skin(seen(K.MACERATION), leak=None)],
    ),
    # pressure
    (
        "pressure_injury",
        "A lasting mark or bruise",
        [skin(seen(K.PRESSURE_MARK))],
        [skin(seen(K.ULCER), **CONVEX)],
    ),
    (
        "pressure_injury",
        "There is an ulcer under the system",
        [skin(seen(K.ULCER), **CONVEX)],
        [skin(seen(K.PRESSURE_MARK), **CONVEX)],
    ),
    (
        "pressure_injury",
        "Convexity is in use",
        [skin(seen(K.PRESSURE_MARK), **CONVEX)],
        [skin(seen(K.PRESSURE_MARK)), skin(seen(K.PRESSURE_MARK), profile=None)],
    ),
    (
        "pressure_injury",
        "A belt is in use",
        [skin(seen(K.PRESSURE_MARK, of(3)), accessories=BELT)],
        [
            skin(seen(K.PRESSURE_MARK, of(6)), accessories=BELT),
            skin(seen(K.PRESSURE_MARK, of(3))),
        ],
    ),
    (
        "pressure_injury",
        "A bulge presses from below",
        [skin(seen(K.PRESSURE_MARK), bulges=(Bulge(LOW),))],
        [skin(seen(K.PRESSURE_MARK)), skin(seen(K.PRESSURE_MARK), bulges=None)],
    ),
    (
        "pressure_injury",
        "It hurts",
        [skin(seen(K.PRESSURE_MARK, pain=True))],
        [skin(seen(K.PRESSURE_MARK)), skin(seen(K.PRESSURE_MARK, pain=False))],
    ),
    # yeast, hair roots, scale
    (
        "yeast",
        "It itches or burns",
        [skin(seen(K.SATELLITES, itch=True)), skin(seen(K.SATELLITES, burning=True))],
        [skin(seen(K.SATELLITES)), skin(seen(K.SATELLITES, itch=False, burning=False))],
    ),
    (
        "yeast",
        "The skin is moist",
        [skin(seen(K.SATELLITES, moist=True)), skin(seen(K.SATELLITES), seen(K.MACERATION))],
        [skin(seen(K.SATELLITES)), skin(seen(K.SATELLITES, moist=False))],
    ),
    *(
        (
            "yeast",
            words,
            [skin(seen(K.SATELLITES), person=has(condition))],
            [skin(seen(K.SATELLITES)), skin(seen(K.SATELLITES), person=has_not(condition))],
        )
        for condition, words in (
            (C.RECENT_ANTIBIOTICS, "Antibiotics were taken recently"),
            (C.DIABETES, "The person has diabetes"),
            (C.IMMUNOSUPPRESSED, "The person's defences are lowered"),
        )
    ),
    (
        "folliculitis",
        "No adhesive remover is used",
        [skin(seen(K.HAIR_PUSTULES))],
        [
            skin(seen(K.HAIR_PUSTULES), accessories=REMOVER),
            skin(seen(K.HAIR_PUSTULES), **UNKNOWN_ACCESSORIES),
        ],
    ),
    (
        "dermatosis",
        "A well-defined red patch with scale",
        [skin(seen(K.SCALE))],
        [skin(seen(K.ERYTHEMA), person=has(C.PSORIASIS_OR_ECZEMA))],
    ),
    (
        "dermatosis",
        "Psoriasis or eczema is known",
        [skin(seen(K.SCALE), person=has(C.PSORIASIS_OR_ECZEMA))],
        [skin(seen(K.SCALE))],
    ),
    (
        "dermatosis",
        "It itches",
        [skin(seen(K.SCALE, itch=True))],
        [skin(seen(K.SCALE)), skin(seen(K.SCALE), seen(K.ERYTHEMA, itch=True))],
    ),
    # what adhesive and effluent do in time
    (
        "stripping",
        "Stripped or torn skin",
        [skin(seen(K.STRIPPING))],
        [skin(seen(K.BLISTERS))],
    ),
    (
        "stripping",
        "Blisters seen after removal",
        [skin(seen(K.BLISTERS))],
        [skin(seen(K.STRIPPING))],
    ),
    (
        "stripping",
        "No adhesive remover is used",
        [skin(seen(K.STRIPPING))],
        [
            skin(seen(K.STRIPPING), accessories=REMOVER),
            skin(seen(K.STRIPPING), **UNKNOWN_ACCESSORIES),
        ],
    ),
    (
        "stripping",
        "The barrier is changed very often",
        [skin(seen(K.STRIPPING), wear=worn(2.0, 2.0, 2.0))],
        [skin(seen(K.STRIPPING), wear=worn(2.1, 2.1, 2.1)), skin(seen(K.STRIPPING))],
    ),
    (
        "warty",
        "It is mostly seen late",
        [skin(seen(K.WARTY), **UROSTOMY)],
        [skin(seen(K.WARTY))],
    ),
    (
        "warty",
        "Gritty crystals",
        [skin(seen(K.WARTY), urine_signs=frozenset({UrineSign.CRYSTALS}), **UROSTOMY)],
        [skin(seen(K.WARTY), urine_signs=None, **UROSTOMY)],
    ),
    (
        "warty",
        "The opening in use is too large",
        [skin(seen(K.WARTY), **opening(36.4))],
        [skin(seen(K.WARTY), **opening(36.3)), skin(seen(K.WARTY), opening_length_mm=None)],
    ),
    (
        "warty",
        "It lies in the lower half",
        [skin(seen(K.WARTY, of(4))), skin(seen(K.WARTY, of(8, 9)))],
        [skin(seen(K.WARTY, of(3))), skin(seen(K.WARTY, of(9, 10)))],
    ),
    (
        "granuloma",
        "It is most frequent with a colostomy",
        [skin(seen(K.GRANULOMA), **COLOSTOMY)],
        [skin(seen(K.GRANULOMA))],
    ),
    (
        "granuloma",
        "The opening in use rubs",
        [skin(seen(K.GRANULOMA), **opening(31.9)), skin(seen(K.GRANULOMA), **opening(28.0))],
        [skin(seen(K.GRANULOMA), **opening(32.0)), skin(seen(K.GRANULOMA), opening_length_mm=None)],
    ),
    # junction, veins, ulcers, growths
    (
        "separation",
        "The stoma is new",
        [{"junction": (Separation(LOW),), "days_since_surgery": 30}],
        [{"junction": (Separation(LOW),), "days_since_surgery": days} for days in (31, None)],
    ),
    (
        "separation",
        "The stoma is lower than 10 mm",
        [{"junction": (Separation(LOW),), "protrusion_mm": 9.9}],
        [{"junction": (Separation(LOW),), "protrusion_mm": mm} for mm in (10.0, None)],
    ),
    (
        "separation",
        "It is an end stoma",
        [{"junction": (Separation(LOW),), "construction": Construction.END}],
        [{"junction": (Separation(LOW),), "construction": c} for c in (Construction.LOOP, None)],
    ),
    (
        "varices",
        "A blue-purple ring",
        [skin(seen(K.DILATED_VEINS))],
        [{"person": has(C.LIVER_DISEASE)}],
    ),
    (
        "varices",
        "Liver disease is known",
        [{"person": has(C.LIVER_DISEASE)}],
        [skin(seen(K.DILATED_VEINS))],
    ),
    (
        "varices",
        "Most reported cases had an ileostomy",
        [skin(seen(K.DILATED_VEINS))],
        [skin(seen(K.DILATED_VEINS), **COLOSTOMY)],
    ),
    (
        "varices",
        "It bleeds",
        [
            skin(seen(K.DILATED_VEINS), bleeding=b)
            for b in (
                *(Bleeding.OOZE_AT_JUNCTION, Bleeding.SEVERAL_EMPTIES),
                Bleeding.SPURTING_OR_UNSTOPPED,
            )
        ],
        [
            skin(seen(K.DILATED_VEINS), bleeding=b)
            for b in (Bleeding.NONE, Bleeding.ON_WIPING, Bleeding.FROM_LUMEN, None)
        ],
    ),
    (
        "pyoderma",
        "The ulcer's edge is violet",
        [skin(seen(K.UNDERMINED_ULCER))],
        [skin(seen(K.ULCER))],
    ),
    (
        "pyoderma",
        "It deepens within hours",
        [skin(seen(K.ULCER, enlarging=True))],
        [skin(seen(K.ULCER)), skin(seen(K.ULCER, enlarging=False))],
    ),
    (
        "pyoderma",
        "The pain is out of proportion",
        [skin(seen(K.ULCER), pain_0_10=7)],
        [skin(seen(K.ULCER), pain_0_10=score) for score in (6, None)],
    ),
    (
        "pyoderma",
        "The person has inflammatory bowel disease",
        [skin(seen(K.ULCER), person=has(C.INFLAMMATORY_BOWEL_DISEASE))],
        [skin(seen(K.ULCER))],
    ),
    (
        "pyoderma",
        "A hernia or a pressure mark lies beside it",
        [
            skin(seen(K.ULCER), bulges=(Bulge(LOW),)),
            skin(seen(K.ULCER), seen(K.PRESSURE_MARK)),
        ],
        [skin(seen(K.ULCER))],
    ),
    (
        "malignancy",
        "There is a hard lump",
        [skin(seen(K.HARD_LUMP))],
        [skin(seen(K.WARTY, enlarging=True))],
    ),
    (
        "malignancy",
        "It is growing",
        [skin(seen(K.HARD_LUMP, enlarging=True)), skin(seen(K.GRANULOMA, enlarging=True))],
        [skin(seen(K.HARD_LUMP)), skin(seen(K.HARD_LUMP, enlarging=False))],
    ),
    (
        "malignancy",
        "It bleeds",
        [skin(seen(K.HARD_LUMP), bleeding=Bleeding.ON_WIPING)],
        [skin(seen(K.HARD_LUMP)), skin(seen(K.HARD_LUMP), bleeding=None)],
    ),
    (
        "malignancy",
        "The stoma is old",
        [skin(seen(K.HARD_LUMP), days_since_surgery=730)],
        [skin(seen(K.HARD_LUMP), days_since_surgery=days) for days in (729, None)],
    ),
    (
        "infection",
        "Redness that spreads",
        [skin(seen(K.SPREADING_WARMTH))],
        [skin(seen(K.ABSCESS))],
    ),
    (
        "infection",
        "A painful lump with pus",
        [skin(seen(K.ABSCESS))],
        [skin(seen(K.SPREADING_WARMTH))],
    ),
    (
        "infection",
        "There is fever",
        [skin(seen(K.ABSCESS), present=frozenset({Symptom.FEVER}))],
        [skin(seen(K.ABSCESS)), skin(seen(K.ABSCESS), absent=frozenset({Symptom.FEVER}))],
    ),
    (
        "infection",
        "Lowered defences, bowel disease or a fistula",
        [
            skin(seen(K.ABSCESS), person=has(C.IMMUNOSUPPRESSED)),
            skin(seen(K.ABSCESS), person=has(C.INFLAMMATORY_BOWEL_DISEASE)),
            skin(seen(K.ABSCESS), seen(K.FISTULA)),
        ],
        [skin(seen(K.ABSCESS)), skin(seen(K.ABSCESS), person=has(C.DIABETES))],
    ),
    (
        "fistula",
        "Inflammatory bowel disease makes it more likely",
        [skin(seen(K.FISTULA), person=has(C.INFLAMMATORY_BOWEL_DISEASE))],
        [skin(seen(K.FISTULA))],
    ),
    # products
    (
        "irritant_contact",
        "The sharp edge follows",
        [skin(CONTACT)],
        [skin(seen(K.ERYTHEMA, ALL))],
    ),
    (
        "irritant_contact",
        "It lies all round",
        [skin(CONTACT), skin(seen(K.ERYTHEMA, ALL))],
        [skin(seen(K.ERYTHEMA, SIDE, product_outline=True))],
    ),
    (
        "irritant_contact",
        "Products that touch this skin are in use",
        [
            skin(CONTACT),
            skin(seen(K.ERYTHEMA, BELT_LINE, inner_mm=60.0, outer_mm=90.0), accessories=BELT),
        ],
        [skin(CONTACT, system=None)],
    ),
    (
        "irritant_contact",
        "It burns or stings",
        [
            skin(seen(K.ERYTHEMA, ALL, burning=True, pain=False)),
            skin(seen(K.ERYTHEMA, ALL, burning=False, pain=True)),
        ],
        [skin(seen(K.ERYTHEMA, ALL)), skin(seen(K.ERYTHEMA, ALL, burning=False, pain=False))],
    ),
    (
        "allergic_contact",
        "It itches",
        [skin(seen(K.ERYTHEMA, ALL, itch=True))],
        [skin(seen(K.ERYTHEMA, ALL)), skin(seen(K.ERYTHEMA, ALL, itch=False))],
    ),
    (
        "allergic_contact",
        "There are blisters",
        [skin(seen(K.BLISTERS, ALL))],
        [skin(seen(K.ERYTHEMA, ALL))],
    ),
]
AGAINST: list[Row] = [
    (
        "irritant_effluent",
        "It lies away from the stoma",
        [skin(raw(inner_mm=10.0)), skin(raw(inner_mm=10.0), raw(SIDE, inner_mm=12.0))],
        [
            skin(raw(inner_mm=9.9)),
            skin(raw(inner_mm=None)),
            skin(raw(inner_mm=9.9), raw(SIDE, inner_mm=12.0)),
        ],
    ),
    (
        "irritant_effluent",
        "The used barrier came off intact",
        [skin(raw())],
        [skin(raw(), leak=LOW), skin(raw(), leak=None), skin(raw(), erosion=None)],
    ),
    (
        "irritant_effluent",
        "It itches rather than burns",
        [skin(raw(itch=True, burning=False, pain=False))],
        [skin(raw(itch=True)), skin(CALM), skin(raw(itch=True, burning=False, pain=True))],
    ),
    (
        "irritant_effluent",
        "Its sharp edge follows",
        [skin(raw(product_outline=True))],
        [skin(raw()), skin(raw(product_outline=False))],
    ),
    (
        "irritant_effluent",
        "There are satellite spots",
        [skin(raw(), seen(K.SATELLITES))],
        [skin(raw())],
    ),
    (
        "moisture",
        "Effluent was under the barrier at the same hours",
        [skin(seen(K.MACERATION, LOW), leak=of(6))],
        [skin(seen(K.MACERATION, LOW), leak=of(12)), skin(seen(K.MACERATION, LOW), leak=None)],
    ),
    (
        "pressure_injury",
        "Neither convexity nor a belt presses here",
        [skin(seen(K.PRESSURE_MARK))],
        [
            skin(seen(K.PRESSURE_MARK), **CONVEX),
            skin(seen(K.PRESSURE_MARK), accessories=BELT),
            skin(seen(K.PRESSURE_MARK), profile=None),
            skin(seen(K.PRESSURE_MARK), **UNKNOWN_ACCESSORIES),
        ],
    ),
    (
        "pressure_injury",
        "An undermined edge points elsewhere",
        [skin(seen(K.PRESSURE_MARK), seen(K.UNDERMINED_ULCER))],
        [skin(seen(K.PRESSURE_MARK), seen(K.ULCER))],
    ),
    (
        "yeast",
        "Spots sit on hairs",
        [skin(seen(K.SATELLITES), seen(K.HAIR_PUSTULES))],
        [skin(seen(K.SATELLITES))],
    ),
    (
        "folliculitis",
        "Spots also lie between the hairs",
        [skin(seen(K.HAIR_PUSTULES), seen(K.SATELLITES))],
        [skin(seen(K.HAIR_PUSTULES))],
    ),
    (
        "dermatosis",
        "No psoriasis or eczema is known",
        [skin(seen(K.SCALE), person=has_not(C.PSORIASIS_OR_ECZEMA))],
        [skin(seen(K.SCALE)), skin(seen(K.SCALE), person=has(C.PSORIASIS_OR_ECZEMA))],
    ),
    (
        "stripping",
        "The damage lies only at the edge",
        [skin(seen(K.STRIPPING, outer_mm=5.0))],
        [
            skin(seen(K.STRIPPING, outer_mm=5.1)),
            skin(seen(K.STRIPPING, outer_mm=None)),
            skin(seen(K.STRIPPING, outer_mm=4.0), seen(K.BLISTERS, outer_mm=20.0)),
        ],
    ),
    *(
        (
            key,
            words,
            [skin(seen(kind), seen(K.HARD_LUMP)), skin(seen(kind, enlarging=True))],
            [skin(seen(kind)), skin(seen(kind, enlarging=False))],
        )
        for key, kind, words in (
            ("warty", K.WARTY, "A hard or fast-growing lump"),
            ("granuloma", K.GRANULOMA, "Hard or growing tissue"),
        )
    ),
    (
        "pyoderma",
        "It does not hurt",
        [skin(seen(K.ULCER, pain=False))],
        [
            skin(seen(K.ULCER)),
            skin(seen(K.ULCER, pain=True)),
            skin(seen(K.ULCER, pain=False), seen(K.UNDERMINED_ULCER, SIDE)),
        ],
    ),
    (
        "infection",
        "It itches and has the outline",
        [skin(seen(K.SPREADING_WARMTH, itch=True, product_outline=True))],
        [
            skin(seen(K.SPREADING_WARMTH, itch=True)),
            skin(seen(K.SPREADING_WARMTH, product_outline=True)),
        ],
    ),
    (
        "unexplained",
        "There are signs of another cause",
        [
            skin(seen(K.ERYTHEMA), seen(K.SATELLITES)),
            skin(seen(K.ERYTHEMA, product_outline=True)),
        ],
        [skin(seen(K.ERYTHEMA)), skin(seen(K.ERYTHEMA), seen(K.SCALE))],
    ),
    (
        "irritant_contact",
        "Effluent gets under the barrier",
        [skin(CONTACT, leak=LOW)],
        [skin(CONTACT), skin(CONTACT, leak=None)],
    ),
    (
        "irritant_contact",
        "It itches rather than burns",
        [skin(seen(K.ERYTHEMA, ALL, itch=True))],
        [skin(seen(K.ERYTHEMA, ALL)), skin(seen(K.ERYTHEMA, ALL, itch=True, burning=True))],
    ),
    (
        "allergic_contact",
        "Effluent gets under the barrier",
        [skin(CONTACT, leak=LOW)],
        [skin(CONTACT), skin(CONTACT, leak=None)],
    ),
    (
        "allergic_contact",
        "It does not itch",
        [skin(seen(K.ERYTHEMA, ALL, itch=False))],
        [
            skin(seen(K.ERYTHEMA, ALL)),
            skin(seen(K.ERYTHEMA, ALL, itch=True)),
            skin(seen(K.ERYTHEMA, ALL, itch=False), seen(K.EROSION, ALL)),
        ],
    ),
]


@pytest.mark.parametrize("row", [*EFFLUENT, *OTHERS], ids=lambda row: f"{row[0]}: {row[1]}")
def test_speaks_for_it(row: Row) -> None:
    told_apart(row, against=False)


@pytest.mark.parametrize("row", AGAINST, ids=lambda row: f"{row[0]}: {row[1]}")
def test_speaks_against_it(row: Row) -> None:
    told_apart(row, against=True)


@pytest.mark.parametrize(
    ("key", "changes"),
    [
        ("pressure_injury", skin(seen(K.ULCER))),
        ("dermatosis", skin(seen(K.ERYTHEMA))),
        ("dermatosis", {"person": has(C.PSORIASIS_OR_ECZEMA)}),
        ("radiation", skin(seen(K.ERYTHEMA))),
        ("radiation", {"person": has(C.RADIOTHERAPY_ABDOMEN)}),
        ("malignancy", skin(seen(K.WARTY), seen(K.GRANULOMA, enlarging=False))),
        ("separation", {"junction": None}),
        ("varices", {"person": has_not(C.LIVER_DISEASE)}),
    ],
)
def test_half_of_its_signs_do_not_raise_it(key: str, changes: Changes) -> None:
    assert cause_of(key, changes) is None


@pytest.mark.parametrize(
    "changes",
    [CONVEX, {"accessories": BELT}, {"accessories": None}, {"profile": None}],
)
def test_an_ulcer_is_of_pressure_where_something_presses_or_nobody_knows(changes: Changes) -> None:
    assert cause_of("pressure_injury", skin(seen(K.ULCER), **changes)) is not None


def test_where_a_cause_lies_is_where_all_of_its_findings_lie() -> None:
    for key, kinds in (
        ("irritant_effluent", (K.ERYTHEMA, K.EROSION, K.MACERATION)),
        ("stripping", (K.STRIPPING, K.BLISTERS)),
        ("infection", (K.SPREADING_WARMTH, K.ABSCESS)),
        ("pyoderma", (K.ULCER, K.UNDERMINED_ULCER)),
        ("malignancy", (K.HARD_LUMP,)),
        ("varices", (K.DILATED_VEINS,)),
        ("fistula", (K.FISTULA,)),
        ("yeast", (K.SATELLITES,)),
    ):
        hours = [of(2 * place + 1) for place in range(len(kinds))]
        found = tuple(seen(kind, at) for kind, at in zip(kinds, hours, strict=True))
        cause = cause_of(key, skin(*found))
        assert cause is not None, key
        assert cause.hours == ClockHours.union(hours), key
