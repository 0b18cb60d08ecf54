"""Where things lie on the clock face as it is shown."""

from playwright.sync_api import Page

from clinic.visits.presenters import face_geometry as geometry

FACE = "svg[role=application]"

_ON_SCREEN = """(svg, [x, y]) => {
  const point = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM());
  return [point.x, point.y];
}"""


def on_screen(page: Page, hour: float, out_mm: float) -> tuple[float, float]:
    """The place ``out_mm`` beyond the stoma's edge at ``hour`` o'clock, in CSS pixels."""
    face = page.locator(FACE)
    face.evaluate("(svg) => svg.scrollIntoView({block: 'center'})")
    x, y = face.evaluate(_ON_SCREEN, list(geometry.at(hour, geometry.radius_of(out_mm))))
    return x, y
