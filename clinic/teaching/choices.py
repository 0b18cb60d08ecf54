"""What is taught, how far somebody is, and how it was checked.

The list, the levels and what is asked before going home are design values; teach-back, and about
three points at one visit, are common practice.
"""

from django.db.models import IntegerChoices, TextChoices


class Item(TextChoices):
    """The checklist, in the order of a change; then what belongs to life with a stoma."""

    EMPTY = "empty", "Empty the pouch"
    TAKE_OFF = "take_off", "Take the barrier off"
    CLEAN = "clean", "Clean and dry the skin"
    LOOK = "look", "Look: stoma, skin, back of the barrier"
    MEASURE = "measure", "Measure the stoma"
    CUT = "cut", "Cut or mould the opening"
    PUT_ON = "put_on", "Put the barrier on"
    CLOSE = "close", "Close the pouch"
    THROW_AWAY = "throw_away", "Dispose of what was used"
    ORDER = "order", "Order supplies"
    DANGER_SIGNS = "danger_signs", "Danger signs, and whom to call"
    FOOD_AND_DRINK = "food_and_drink", "Food and drink"
    MEDICINES = "medicines", "Medicines"
    LIVING = "living", "Bath, sport, work, intimacy"
    TRAVEL = "travel", "Travel"
    HELP = "help", "Where to get help, and the out-of-hours number"


class Level(IntegerChoices):
    """How far somebody is. The last two are no steps: the point is not theirs to learn."""

    NOT_SHOWN = 0, "Not shown"
    SHOWN = 1, "Shown"
    WITH_HELP = 2, "With help"
    ALONE_WITH_WORDS = 3, "Alone, with prompting"
    ALONE = 4, "Alone"
    NOT_APPLICABLE = 8, "Not applicable"
    CARER_DOES = 9, "Carer does it"


class Learner(TextChoices):
    PATIENT = "patient", "The patient"
    CARER = "carer", "A carer"


class TeachBack(TextChoices):
    """What was said or shown back; never that somebody "understands"."""

    SAID = "said", "Said it back"
    SHOWED = "showed", "Showed it"
    NOT_YET = "not_yet", "Asked, not right yet"


class Withdrawn(TextChoices):
    """Why an entry no longer counts."""

    MISTAKE = "mistake", "Recorded by mistake"
    OTHER_PERSON = "other_person", "Recorded for the wrong patient"


#: What somebody must do alone, if with prompting, before going home (design value).
GOING_HOME = (Item.EMPTY, Item.PUT_ON, Item.DANGER_SIGNS)
#: From this level on a point is no longer missing (design value).
ENOUGH = Level.ALONE_WITH_WORDS
#: What the steps of the care sheet explain: a shorter sheet leaves these out (design value).
ON_THE_SHEET = (
    *(Item.EMPTY, Item.TAKE_OFF, Item.CLEAN, Item.LOOK, Item.MEASURE, Item.CUT),
    *(Item.PUT_ON, Item.CLOSE, Item.THROW_AWAY, Item.DANGER_SIGNS),
)
#: About so many points are kept from one visit (common practice).
POINTS_A_VISIT = 3
