"""What was agreed as known and accepted, held against what is found today (facts of 2026, 5)."""

from planning.safety.baselines.compare import (
    NAMES,
    Compared,
    as_known,
    compared,
    comparisons,
    was_there,
)

__all__ = ["NAMES", "Compared", "as_known", "compared", "comparisons", "was_there"]
