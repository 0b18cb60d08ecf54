"""The one bridge between the record and the planner: rows to findings, plan to rows."""

from clinic.plans.bridge.findings import findings_of, row_worn
from clinic.plans.bridge.history import history_of

__all__ = ["findings_of", "history_of", "row_worn"]
