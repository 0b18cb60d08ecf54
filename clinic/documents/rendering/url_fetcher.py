"""What a document may load while it is being set: our own static files and drawings that are
part of it, nothing else."""

from base64 import b64decode
from pathlib import Path
from urllib.parse import unquote, urlsplit

from django.conf import settings
from weasyprint.urls import URLFetcher, URLFetcherResponse

from clinic.documents.rendering.clock_face_image import INSIDE

TYPES = {".css": "text/css", ".svg": "image/svg+xml", ".png": "image/png"}


def static_folder() -> Path:
    """Where our style sheets and small pictures live."""
    return (Path(settings.BASE_DIR) / "static").resolve()


class ClosedFetcher(URLFetcher):
    """Serves files of the static folder and drawings inside the page; any other address stops the
    document."""

    def __init__(self) -> None:
        # Otherwise a missing file only leaves a line in the log, and a bare page.
        super().__init__(fail_on_errors=True)

    def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
        """Raises ``PermissionError`` outside the static folder, ``OSError`` for a missing file."""
        if url.startswith(INSIDE):
            drawing = b64decode(url.removeprefix(INSIDE))
            return URLFetcherResponse(url, drawing, {"Content-Type": TYPES[".svg"]})
        parts = urlsplit(url)
        path = Path(unquote(parts.path)).resolve()
        inside = parts.scheme == "file" and not parts.netloc
        if not (inside and path.is_relative_to(static_folder()) and path.suffix in TYPES):
            raise PermissionError("A document loads nothing but our own static files.")
        return URLFetcherResponse(url, path.read_bytes(), {"Content-Type": TYPES[path.suffix]})
