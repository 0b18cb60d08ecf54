"""Rows of a plan. Import models from here."""

from clinic.plans.models.chosen_code import ChosenCode
from clinic.plans.models.decision import Choice, Decision
from clinic.plans.models.snapshot import PlanSnapshot

__all__ = ["Choice", "ChosenCode", "Decision", "PlanSnapshot"]
