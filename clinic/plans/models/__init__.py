"""Rows of a plan. Import models from here."""

from clinic.plans.models.decision import Choice, Decision
from clinic.plans.models.follow_up import FollowUp
from clinic.plans.models.referral import Referral, Urgency
from clinic.plans.models.snapshot import PlanSnapshot

__all__ = ["Choice", "Decision", "FollowUp", "PlanSnapshot", "Referral", "Urgency"]
