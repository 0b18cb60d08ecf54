"""What is wrong with a set of findings: one typed error a field."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FieldError:
    """One thing wrong.

    ``path`` names the field as in ``Findings``: ``measurement.length_mm``,
    ``skin[2].outer_mm``. ``message`` is a sentence a nurse understands.
    """

    path: str
    message: str


class InvalidFindings(ValueError):  # noqa: N818 - named as the nurse reads it
    """The findings cannot be planned from; ``errors`` lists every reason."""

    def __init__(self, errors: tuple[FieldError, ...]) -> None:
        self.errors = errors
        super().__init__("; ".join(f"{e.path}: {e.message}" for e in errors))
