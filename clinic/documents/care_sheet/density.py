"""How close a care sheet is set, so that it keeps to few pages where it can."""

from clinic.documents.care_sheet.sheet import Sheet

#: From open to close: what ``css/sheet.css`` calls each.
SPACINGS = ("", "full", "fuller full", "fullest fuller full")
LARGE_SPACINGS = ("", "close", "closest close")
#: More words than this seldom fit two pages in the first, second and third of them (measured at
#: 14 pt on A4, over sheets of the invented clinic). A guess to start from; what counts is whether
#: the pages, once set, are two.
ROOM_FOR = (335, 360, 385)
#: Words of other languages take more room on a line (measured on the same sheets).
ROOM = {"es": 1.05, "ar": 1.14}
#: What a note on top takes, in words of the rest.
NOTE = 17


def most_pages(sheet: Sheet[str]) -> int:
    """Pages a sheet is kept to: both sides of one leaf, in large print of two."""
    return 4 if sheet.large else 2


def spacings(sheet: Sheet[str]) -> tuple[str, ...]:
    """What to try, from the most open that is likely to fit."""
    if sheet.large:
        return LARGE_SPACINGS
    words = words_of(sheet) * ROOM.get(sheet.language, 1)
    return SPACINGS[sum(words > room for room in ROOM_FOR) :]


def words_of(sheet: Sheet[str]) -> int:
    """Words in steps, things to use, marks and calls, and what notes on top take."""
    lines = [step.words for step in sheet.steps] + [mark.words for mark in sheet.marks]
    lines += [line.words for use in sheet.uses for line in use.lines]
    lines += [line for group in (*sheet.call, *sheet.look_at) for line in group.lines]
    notes = NOTE * (not sheet.signed) + 2 * NOTE * bool(sheet.in_english)
    return sum(len(line.split()) for line in lines) + notes
