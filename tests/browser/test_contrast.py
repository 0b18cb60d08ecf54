"""The few colours everything is made of, light and dark, against WCAG 2.2's formula (1.4.3 and
1.4.11); and nothing on the screen has a colour besides them."""

import re
from pathlib import Path

import pytest

CSS = Path(__file__).resolve().parents[2] / "static" / "css"
TOKENS = CSS / "tokens.css"
TOKEN = re.compile(r"--([\w-]+):\s*(#[0-9a-f]{6});")
LIGHT, _, DARK = TOKENS.read_text().partition("@media screen and (prefers-color-scheme: dark)")
COLOURS = dict(TOKEN.findall(LIGHT))
IN_THE_DARK = COLOURS | dict(TOKEN.findall(DARK))
#: Printed, or the colours themselves.
NOT_SCREEN = {
    "card",
    "diary",
    "letter",
    "marking",
    "paper",
    "questions",
    "sheet",
    "supply-list",
    "template",
    "tokens",
}
WRITTEN = re.compile(r"#[0-9a-f]{3,8}\b|\b(?:rgb|hsl)a?\(|:\s*(?:white|black)\b", re.IGNORECASE)

TEXT = 4.5
SHAPE = 3.0  # borders of controls, the ring of the focus
PAIRS = [
    *(("ink", ground, TEXT) for ground in ("paper", "ground", "accent-wash", "warn-wash")),
    *(("ink-soft", ground, TEXT) for ground in ("paper", "ground", "accent-wash")),
    *(("link", ground, TEXT) for ground in ("paper", "ground", "accent-wash")),
    *(("on-accent", ground, TEXT) for ground in ("accent", "accent-dark")),
    *(("on-bar", ground, TEXT) for ground in ("bar", "bar-hover")),
    *(("accent-dark", ground, TEXT) for ground in ("paper", "ground", "accent-wash")),
    ("on-danger", "danger", TEXT),
    *((f"{tone}-ink", f"{tone}-wash", TEXT) for tone in ("warn", "bad", "good")),
    *((f"{tone}-ink", "paper", TEXT) for tone in ("warn", "bad", "good")),
    *((f"{tone}-line", "paper", SHAPE) for tone in ("warn", "bad", "good")),
    *(("danger", ground, SHAPE) for ground in ("paper", "ground")),
    *((line, "bar", SHAPE) for line in ("bar-line", "focus-on-bar")),
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


@pytest.mark.parametrize("colours", [COLOURS, IN_THE_DARK], ids=["light", "dark"])
@pytest.mark.parametrize(("colour", "ground", "least"), PAIRS)
def test_contrast(colours: dict[str, str], colour: str, ground: str, least: float) -> None:
    assert ratio(colours[colour], colours[ground]) >= least


def test_dark_is_dark() -> None:
    """Each colour of the dark set replaces one, and the grounds are darker than what is on them."""
    assert DARK
    assert dict(TOKEN.findall(DARK)).keys() <= COLOURS.keys()
    for ground in ("paper", "ground"):
        assert luminance(COLOURS["ink"]) < luminance(COLOURS[ground])
        assert luminance(IN_THE_DARK["ink"]) > luminance(IN_THE_DARK[ground])


def test_the_screen_has_no_colour_of_its_own() -> None:
    """A colour written beside the tokens would be the same in the dark."""
    sheets = [sheet for sheet in CSS.glob("*.css") if sheet.stem not in NOT_SCREEN]
    assert len(sheets) > 10
    assert {s.name: found for s in sheets if (found := WRITTEN.findall(s.read_text()))} == {}
