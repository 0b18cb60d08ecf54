"""What the leaf says. Facts of 2026, teaching and the take-home sheet: common practice, but for
emptying at one third to half full, which a discharge sheet of US nurses says (excerpt read)."""

from __future__ import annotations

from typing import Final

EMPTY: Final = (
    "Empty the pouch when it is one third to half full.",
    "Empty it before you lie down and before you take it off.",
)
#: A closed pouch is not emptied.
CLOSED: Final = ("Have a new pouch ready before you take the full one off.",)
NIGHT_BAG: Final = (
    "At night, leave a little urine in the pouch before you join the night bag.",
    "Rinse the night bag every day. Take a new one every week.",
)
CHANGE: Final = (
    "Wash your hands before and after.",
    "Peel every backing off the barrier before you put it on.",
)
THROW_AWAY: Final = ("Put the used pouch in a bag, then in the bin. Never put it in the toilet.",)
WASH: Final = ("You can shower with the pouch on or off. Dry the skin well after.",)
#: What the leaf says instead of what to drink.
PLAN_FIRST: Final = "Keep to what your care sheet and your team say about food and drink."
LIMITED: Final = "Drink only as much as your doctor allows you."
CHEW: Final = "Chew well. Eat small meals."
LITTLE_FIBRE: Final = "Eat little fibre in the first 6 to 8 weeks after surgery."
SALT: Final = "Put salt in your food, unless your doctor told you not to."
NO_LAXATIVE: Final = "Never take a laxative."
DRINK_ILEOSTOMY: Final = (
    "Drink 1.5 to 2 litres, spread over the day, unless your drinks are limited."
)
FIBRE: Final = "Eat fibre and drink well, unless your drinks are limited."
GAS: Final = "Some foods make gas. See which ones do it to you."
DRINK_UROSTOMY: Final = "Drink about 2 litres a day, unless your drinks are limited."
MILD_CRAMPS: Final = "For mild cramps while something still comes out:"
CALL_FIRST: Final = (
    "If you have cramps, or little or nothing comes out, eat no solid food and call us at once.",
    "Get emergency help if you vomit, your belly swells or the pain is strong.",
)
ORDER: Final = (
    "Order more when you have enough left for two weeks.",
    "Your supply list has the name and number of each thing.",
)
TRAVEL: Final = (
    "Take twice what you need, in your hand luggage.",
    "Carry a note that says you have a stoma.",
    "Drink only safe water.",
)
CUT_AHEAD: Final = "Cut the holes before you leave."
ASK_FIRST: Final = "Ask us first if you want to fast or to travel where it is hot."
