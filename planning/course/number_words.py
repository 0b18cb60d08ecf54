"""How the course writes days, figures and changes; the minus is a real one."""

from __future__ import annotations

from datetime import date
from typing import Final

from planning.inputs.usable_numbers import check_numbers

MINUS: Final = "\N{MINUS SIGN}"
_MONTHS: Final = (
    *("Jan", "Feb", "Mar", "Apr", "May", "Jun"),
    *("Jul", "Aug", "Sep", "Oct", "Nov", "Dec"),
)


def day_words(day: date) -> str:
    """The month in letters, so that no one swaps day and month: ``5 Apr 2025``."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def number(value: float, places: int = 1) -> str:
    """Rounded for reading, without trailing zeros: ``2``, ``0.4``."""
    check_numbers(value=value, endless=True)
    check_numbers(places=places, low=0)
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text.replace("-", MINUS)


def measure(value: float, unit: str) -> str:
    """With its unit: tenths of a millimetre; areas and volumes whole."""
    return f"{number(value, 1 if unit == 'mm' else 0)} {unit}"


def count(many: int, thing: str) -> str:
    """``1 barrier``, ``3 barriers``, ``no barrier``."""
    check_numbers(many=many, low=0)
    if many == 0:
        return f"no {thing}"
    return f"{many} {thing if many == 1 else thing + 's'}"


def sentence(text: str) -> str:
    """With a capital at the front and a full stop at the end."""
    text = text.strip()
    end = "" if text.endswith((".", "?", "!")) else "."
    return text[:1].upper() + text[1:] + end


def listed(parts: tuple[str, ...]) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"
