"""A hand on the keyboard: no mouse, nothing filled in from outside. Counts its presses."""

from playwright.sync_api import Page

FURTHEST = 60  # presses of Tab before the place looked for counts as out of reach

_FOCUSED = "selector => document.activeElement?.matches(selector) ?? false"
_WHERE = """() => {
  const e = document.activeElement;
  const part = e?.closest('.part, #face, #plan, #papers, .chart-bar, .chart-index, .site-header');
  const name = part?.className.includes('chart-bar') ? 'chart-bar' : part?.id || part?.className;
  return `${name || 'page'}: ${e?.name || e?.id || e?.textContent.trim()}`;
}"""


class Keys:
    """Presses keys on ``page``; ``count`` says how many."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.count = 0

    def press(self, key: str, times: int = 1) -> None:
        for _ in range(times):
            self.page.keyboard.press(key)
        self.count += times

    def type(self, text: str) -> None:
        self.page.keyboard.type(text)
        self.count += len(text)

    def is_at(self, selector: str) -> bool:
        return bool(self.page.evaluate(_FOCUSED, selector))

    def where(self) -> str:
        """Where the focus is: the part of the page, then the control."""
        return str(self.page.evaluate(_WHERE))

    def tab_to(self, selector: str) -> None:
        """Press Tab until the focus is on ``selector``."""
        passed: list[str] = []
        for _ in range(FURTHEST):
            if self.is_at(selector):
                return
            self.press("Tab")
            passed.append(self.where())
        raise AssertionError(f"Tab does not lead to {selector}; it passed {passed}")

    def enter(self, selector: str, text: str) -> None:
        """Go to a box and type into it."""
        self.tab_to(selector)
        self.type(text)

    def pick(self, selector: str, beginning: str) -> None:
        """Go to a list and type the beginning of a choice."""
        self.tab_to(selector)
        self.type(beginning)

    def answer(self, name: str, value: str) -> None:
        """Go to a row of buttons and move along it to one of them."""
        chosen = f'input[name="{name}"][value="{value}"]'
        self.tab_to(f'input[name="{name}"]')
        for _ in range(8):
            if self.page.locator(chosen).is_checked():
                return
            self.press("ArrowRight")
        raise AssertionError(f"The arrows do not lead to {name} = {value}")

    def tick(self, name: str, *values: str) -> None:
        """Go to a row of boxes and tick some, in their order there."""
        self.tab_to(f'input[name="{name}"]')
        for value in values:
            for _ in range(13):
                if self.is_at(f'[value="{value}"]'):
                    break
                self.press("ArrowRight")
            self.press("Space")
