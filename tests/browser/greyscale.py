"""What a pattern looks like to an eye, or a printer, that sees no colour."""

from base64 import b64encode

from playwright.sync_api import Page

SIDE = 60  # drawing units: several repeats of the largest pattern
#: Mean difference of brightness, 0 to 255, below which two patterns count as alike.
LEAST = 12.0

_PAGE = """<!doctype html><body style="margin:0"><svg width="{side}" height="{side}"
style="filter: grayscale(1)">{patterns}<rect width="{side}" height="{side}"
fill="url(#{pattern})"/></svg>"""

_BRIGHTNESS = """async ([picture, side]) => {
  const image = await createImageBitmap(await (await fetch(picture)).blob());
  const canvas = new OffscreenCanvas(side, side).getContext("2d");
  canvas.drawImage(image, 0, 0);
  return [...canvas.getImageData(0, 0, side, side).data].filter((_, i) => i % 4 === 0);
}"""


def grey_of(page: Page, patterns: str, pattern: str) -> list[int]:
    """Brightness of every point of a square filled with the pattern."""
    page.set_content(_PAGE.format(side=SIDE, patterns=patterns, pattern=pattern))
    picture = page.screenshot(clip={"x": 0, "y": 0, "width": SIDE, "height": SIDE})
    address = "data:image/png;base64," + b64encode(picture).decode()
    return list(page.evaluate(_BRIGHTNESS, [address, SIDE]))


def unlike(one: list[int], other: list[int]) -> bool:
    """Whether two squares differ by more than shade: point by point, after evening out.

    Both are shifted to the same mean, so that a lighter print of one pattern is still alike.
    """
    means = [sum(grey) / len(grey) for grey in (one, other)]
    apart = (abs((a - means[0]) - (b - means[1])) for a, b in zip(one, other, strict=True))
    return sum(apart) / len(one) >= LEAST
