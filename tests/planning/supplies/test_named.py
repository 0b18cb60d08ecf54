"""What a sentence says of a supply: used, forbidden, or neither."""

from __future__ import annotations

import pytest

from planning.supplies.catalogue import CONVEX, SUPPLIES
from planning.supplies.named import named_in


@pytest.mark.parametrize(
    ("text", "used"),
    [
        ("Put the belt on last, level with the stoma.", {"belt"}),
        ("Half ring on the low side.", {"half_ring"}),
        ("Lay half a ring on the low side.", {"half_ring"}),
        ("Warm the ring and stretch it.", {"ring"}),
        ("Dab (do not wipe) alcohol-free film over the powder.", {"protectant", "powder"}),
        ("Brush off all loose powder.", {"powder"}),
        ("Put the support belt on while you lie down.", {"support_garment"}),
        ("A soft barrier with a dome.", set(CONVEX)),
        # Said under a condition, or of one place, or free of it: neither.
        ("Convexity would lift the stoma.", set()),
        ("If it leaks, a ring.", set()),
        ("A latex-free support garment.", set()),
        ("Empty the pouch.", set()),
    ],
)
def test_what_it_takes_as_used(text: str, used: set[str]) -> None:
    assert named_in(text).used == used


@pytest.mark.parametrize(
    ("text", "forbidden"),
    [
        ("No belt and no paste.", {"belt", "paste"}),
        ("Flat over it (no belt, no tape), nothing sealed.", {"belt", "tape"}),
        ("Support garment and belt off.", {"support_garment", "belt"}),
        ("Take belt and wide tape off, so that the edge is seen.", {"belt", "tape"}),
        ("Suspected: the belt over this skin.", {"belt"}),
        ("Reacts to tape: barriers without a tape border.", {"tape"}),
        ("Put the belt on last.", set()),
        ("No belt is begun.", set()),
        ("No paste in it.", set()),
        ("With either, no belt.", set()),
    ],
)
def test_what_it_forbids(text: str, forbidden: set[str]) -> None:
    assert named_in(text).forbidden == forbidden


def test_the_words_of_every_accessory_find_its_own_names() -> None:
    """As clinician and patient read them; a word that misses its own supply would find nothing."""
    for supply in SUPPLIES.values():
        if supply.words:
            assert supply.key in named_in(f"Use: {supply.name}").used, supply.key
