"""How dates, ages and measurements are written, everywhere, on screen and on paper."""

from datetime import date, datetime, time
from decimal import Decimal

from django.utils import timezone

MINUS = "\N{MINUS SIGN}"
NOT_RECORDED = "not recorded"


def day(when: date | datetime | None) -> str:
    """A day with the month in letters, so that no one swaps day and month.

    >>> day(date(1961, 4, 5))
    '5 Apr 1961'
    >>> day(None)
    'not recorded'
    """
    if when is None:
        return NOT_RECORDED
    if isinstance(when, datetime):
        when = timezone.localtime(when).date() if timezone.is_aware(when) else when.date()
    return f"{when.day} {when:%b} {when.year}"


def moment(when: datetime | None) -> str:
    """Day and 24-hour time, in the clinic's time zone.

    >>> moment(datetime(2024, 2, 29, 14, 5))
    '29 Feb 2024, 14:05'
    """
    if when is None:
        return NOT_RECORDED
    local = timezone.localtime(when) if timezone.is_aware(when) else when
    return f"{day(local.date())}, {local:%H:%M}"


def clock(when: time | None) -> str:
    """A time of day on the 24-hour clock; "" where none is agreed.

    >>> clock(time(9, 5)), clock(None)
    ('09:05', '')
    """
    return "" if when is None else f"{when:%H:%M}"


def day_and_time(on: date, at: time | None) -> str:
    """Day and, where one is agreed, the time.

    >>> day_and_time(date(2026, 3, 3), time(14, 30)), day_and_time(date(2026, 3, 3), None)
    ('3 Mar 2026, 14:30', '3 Mar 2026')
    """
    return ", ".join(filter(None, (day(on), clock(at))))


def partial_day(text: str) -> str:
    """A day, month or year, as far as it is known.

    >>> [partial_day(text) for text in ("2021", "2021-03", "2021-03-14", "")]
    ['2021', 'Mar 2021', '14 Mar 2021', 'not recorded']
    """
    if not text:
        return NOT_RECORDED
    if len(text) == 4:
        return text
    if len(text) == 7:
        return f"{date.fromisoformat(text + '-01'):%b %Y}"
    return day(date.fromisoformat(text))


def years(born: date, on: date) -> int:
    """Whole years lived on a day; 29 February counts as reached on 1 March.

    >>> years(date(1960, 2, 29), date(2025, 2, 28)), years(date(1960, 2, 29), date(2025, 3, 1))
    (64, 65)
    """
    return on.year - born.year - ((on.month, on.day) < (born.month, born.day))


def age(born: date, on: date) -> str:
    """Age in years, in months below two years.

    >>> age(date(1961, 4, 5), date(2025, 4, 4)), age(date(1961, 4, 5), date(2025, 4, 5))
    ('63 y', '64 y')
    >>> age(date(2024, 1, 31), date(2025, 3, 30))
    '13 months'
    """
    if (whole := years(born, on)) >= 2:
        return f"{whole} y"
    months = (on.year - born.year) * 12 + on.month - born.month - (on.day < born.day)
    return "1 month" if months == 1 else f"{months} months"


def number(value: float | Decimal | None) -> str:
    """A figure as typed, without trailing zeros and with a true minus sign.

    >>> number(Decimal("12.50")), number(-3), number(0), number(None)
    ('12.5', '\N{MINUS SIGN}3', '0', 'not recorded')
    """
    if value is None:
        return NOT_RECORDED
    plain = format(Decimal(str(value)), "f")
    if "." in plain:
        plain = plain.rstrip("0").rstrip(".")
    return plain.replace("-", MINUS)


def mm(value: float | Decimal | None) -> str:
    """Millimetres; below the skin is negative.

    >>> mm(25), mm(Decimal("-2.0")), mm(None)
    ('25 mm', '\N{MINUS SIGN}2 mm', 'not recorded')
    """
    return NOT_RECORDED if value is None else f"{number(value)} mm"


def yes_no_unknown(value: bool | None) -> str:
    """The three answers a standing condition may have.

    >>> [yes_no_unknown(value) for value in (True, False, None)]
    ['yes', 'no', 'not known']
    """
    return {True: "yes", False: "no", None: "not known"}[value]
