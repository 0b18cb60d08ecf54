"""Reading a typed day. Where a day could be read two ways, both readings are returned."""

import re
from collections.abc import Iterable
from datetime import date

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
LONG_MONTHS = (
    *("january", "february", "march", "april", "may", "june", "july"),
    *("august", "september", "october", "november", "december"),
)
_YEAR = r"(?P<y>(?:18|19|20)\d\d)"
_WORD = r"(?P<word>[a-z]{3,9})\.?"
_ORDERED = re.compile(rf"^{_YEAR}[-/. ](?P<m>\d\d?)[-/. ](?P<d>\d\d?)$")
_COMPACT = re.compile(rf"^{_YEAR}(?P<m>\d\d)(?P<d>\d\d)$")
_DAY_FIRST = re.compile(rf"^(?P<d>\d\d?)(?:st|nd|rd|th)?[ .-]*{_WORD}[ ,.-]*{_YEAR}$")
_MONTH_FIRST = re.compile(rf"^{_WORD}[ .-]*(?P<d>\d\d?)(?:st|nd|rd|th)?[ ,.-]+{_YEAR}$")
_TWO_NUMBERS = re.compile(rf"^(?P<a>\d\d?)[-/. ]+(?P<b>\d\d?)[-/. ]+{_YEAR}$")
_OF_A_MONTH = (
    re.compile(rf"^{_YEAR}[-/. ](?P<m>\d\d?)$"),
    re.compile(rf"^(?P<m>\d\d?)[-/. ]{_YEAR}$"),
    re.compile(rf"^{_WORD}[ ,-]*{_YEAR}$"),
)


def readings(text: str) -> list[date]:
    """Every day ``text`` may mean, earliest first; none where it is no day.

    >>> readings("1961-04-05") == readings("5 Apr 1961") == readings("April 5th, 1961")
    True
    >>> [str(day) for day in readings("04/05/1961")]
    ['1961-04-05', '1961-05-04']
    >>> [str(day) for day in readings("31.12.1999")], readings("31 Feb 2000"), readings("Apr")
    (['1999-12-31'], [], [])
    """
    text = " ".join(text.lower().split())
    for pattern in (_ORDERED, _COMPACT):
        if found := pattern.match(text):
            return _days([(found["y"], found["m"], found["d"])])
    for pattern in (_DAY_FIRST, _MONTH_FIRST):
        if found := pattern.match(text):
            return _days([(found["y"], _month(found["word"]), found["d"])])
    if found := _TWO_NUMBERS.match(text):
        return _days([(found["y"], found["a"], found["b"]), (found["y"], found["b"], found["a"])])
    return []


def partial_reading(text: str) -> str:
    """A year, a month or a day as ``2021``, ``2021-03`` or ``2021-03-14``; "" where it is none of
    them, or a day that could be read two ways.

    >>> [partial_reading(text) for text in ("2021", "Mar 2021", "3/2021", "14 March 2021")]
    ['2021', '2021-03', '2021-03', '2021-03-14']
    >>> [partial_reading(text) for text in ("04/05/2021", "13/2021", "spring")]
    ['', '', '']
    """
    text = " ".join(text.lower().split())
    if re.match(rf"^{_YEAR}$", text):
        return text
    for pattern in _OF_A_MONTH:
        if found := pattern.match(text):
            word = found.groupdict().get("word")
            month = _month(word) if word else int(found["m"])
            return f"{found['y']}-{month:02}" if 1 <= month <= 12 else ""
    days = readings(text)
    return days[0].isoformat() if len(days) == 1 else ""


def _month(word: str) -> int:
    """1 to 12; 0, which is no month, for any other word."""
    for number, (short, long) in enumerate(zip(MONTHS, LONG_MONTHS, strict=True), start=1):
        if word in (short, long) or (word == "sept" and short == "sep"):
            return number
    return 0


def _days(parts: Iterable[tuple[str, str | int, str]]) -> list[date]:
    found = set()
    for year, month, day in parts:
        try:
            found.add(date(int(year), int(month), int(day)))
        except ValueError:
            continue
    return sorted(found)
