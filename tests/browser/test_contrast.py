"""The few colours everything is made of, against WCAG 2.2's formula (1.4.3 and 1.4.11)."""

import re
from pathlib import Path

import pytest

TOKENS = Path(__file__).resolve().parents[2] / "static" / "css" / "tokens.css"
COLOURS = dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6});", TOKENS.read_text()))

TEXT = 4.5
SHAPE = 3.0  # borders of controls, the ring of the focus
PAIRS = [
    *(("ink", ground, TEXT) for ground in ("paper", "ground", "accent-wash", "warn-wash")),
    *(("ink-soft", ground, TEXT) for ground in ("paper", "ground", "accent-wash")),
    *(("link", ground, TEXT) for ground in ("paper", "ground", "accent-wash")),
    *(("on-accent", ground, TEXT) for ground in ("accent", "accent-dark")),
    *((f"{tone}-ink", f"{tone}-wash", TEXT) for tone in ("warn", "bad", "good")),
    *((f"{tone}-ink", "paper", TEXT) for tone in ("warn", "bad", "good")),
    *((f"{tone}-line", "paper", SHAPE) for tone in ("warn", "bad", "good")),
    *(("line-strong", ground, SHAPE) for ground in ("paper", "ground")),
    *(("focus", ground, SHAPE) for ground in ("paper", "ground", "accent-wash")),
]


def luminance(colour: str) -> float:
    """Relative luminance of ``#rrggbb``, 0 to 1."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ratio(one: str, other: str) -> float:
    """Contrast of two colours, 1 to 21."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_formula() -> None:
    """The ends of the scale, and the well-known grey that just passes on white."""
    assert ratio("#000000", "#ffffff") == pytest.approx(21)
    assert ratio("#ffffff", "#ffffff") == pytest.approx(1)
    assert ratio("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize(("colour", "ground", "least"), PAIRS)
def test_contrast(colour: str, ground: str, least: float) -> None:
    assert ratio(COLOURS[colour], COLOURS[ground]) >= least
