"""What somebody typed, given back in words where it could not be saved."""

from collections.abc import Iterator

from django.http import QueryDict

#: Fields of the page itself, and ids: no one typed them.
SILENT = ("csrfmiddlewaretoken", "once", "version", "press", "page", "turn", "seen", "copy")
SILENT_ENDINGS = ("-row", "-about", "-key", "key")


def typed_fields(posted: QueryDict) -> list[tuple[str, str]]:
    """Name in words and what was typed there, without what is empty."""
    return list(_typed(posted))


def _typed(posted: QueryDict) -> Iterator[tuple[str, str]]:
    for name, values in posted.lists():
        said = ", ".join(value.strip() for value in values if value.strip())
        silent = name in SILENT or name.endswith(SILENT_ENDINGS) or "password" in name
        if said and not silent:
            yield _in_words(name), said


def _in_words(name: str) -> str:
    """``family_name`` -> ``Family name``; of a row or a part its last word."""
    return name.rpartition("-")[2].replace("_", " ").capitalize()
