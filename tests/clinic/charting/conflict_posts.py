"""What a browser would post from the page with both versions of a visit."""

from html.parser import HTMLParser


class _Form(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.posted: dict[str, str] = {}

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        counts = given.get("type") == "hidden" or "checked" in given
        name = given.get("name") or ""
        if tag == "input" and counts and name != "csrfmiddlewaretoken":
            self.posted[name] = given.get("value") or ""


def chosen(html: str, **choices: str) -> dict[str, str]:
    """``stoma__length_mm="mine"`` chooses for the field ``stoma-length_mm``; what the page marks
    already stays marked."""
    form = _Form()
    form.feed(html)
    given = {f"choose-{name.replace('__', '-')}": side for name, side in choices.items()}
    return form.posted | given


def marked(html: str) -> dict[str, str]:
    """Field -> the side that the page marks for it."""
    return {
        name.removeprefix("choose-"): side
        for name, side in chosen(html).items()
        if name.startswith("choose-")
    }
