"""What a page must never do: fail in its scripts, break its own policy, talk to another host."""

from dataclasses import dataclass, field
from urllib.parse import urlsplit

from playwright.sync_api import ConsoleMessage, Page, Request

OWN_SCHEMES = {"data", "blob", "about"}


@dataclass
class Watch:
    """Everything amiss on the watched pages, as it happened; empty where all is well."""

    host: str
    amiss: list[str] = field(default_factory=list)
    #: Console lines that a test provokes on purpose, such as a connection it has cut.
    expected: tuple[str, ...] = ()

    def page(self, page: Page) -> Page:
        """Watch ``page`` from now on; return it."""
        page.on("console", self._console)
        page.on("pageerror", lambda error: self.amiss.append(f"script failed: {error}"))
        page.on("request", self._request)
        return page

    def _console(self, message: ConsoleMessage) -> None:
        # A broken content policy is reported here too, as an error.
        if message.type != "error" or any(words in message.text for words in self.expected):
            return
        self.amiss.append(f"console: {message.text}")

    def _request(self, request: Request) -> None:
        address = urlsplit(request.url)
        if address.scheme not in OWN_SCHEMES and address.netloc != self.host:
            self.amiss.append(f"asked another host: {request.url}")
