"""Stage 1: ranges and contradictions."""

from planning.errors import FieldError
from planning.findings import Findings


def check(findings: Findings) -> tuple[FieldError, ...]:
    """Everything that makes ``findings`` impossible, in the order of the form; empty: sound."""
    length, width = findings.measurement.length_mm, findings.measurement.width_mm
    return tuple(
        FieldError(f"measurement.{name}", "The stoma must be larger than 0 mm.")
        for name, value in (("length_mm", length), ("width_mm", width))
        if value is not None and value <= 0
    )
