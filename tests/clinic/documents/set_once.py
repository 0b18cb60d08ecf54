"""The same page is the same paper: one serves every test of a file that asks for it."""

from functools import lru_cache

from clinic.documents.rendering.pdf import pdf_of


@lru_cache(maxsize=64)
def set_once(html: str) -> bytes:
    """The PDF of a page, kept."""
    return pdf_of(html)
