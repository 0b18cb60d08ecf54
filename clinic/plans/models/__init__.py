"""Rows of a plan. Import models from here."""

from clinic.plans.models.alarm import Alarm
from clinic.plans.models.code import ChosenCode
from clinic.plans.models.decision import Choice, Decision
from clinic.plans.models.follow_up import FollowUp, Move, MoveReason
from clinic.plans.models.referral import CameBy, Referral, Urgency
from clinic.plans.models.snapshot import PlanSnapshot

__all__ = [
    "Alarm",
    "CameBy",
    "Choice",
    "ChosenCode",
    "Decision",
    "FollowUp",
    "Move",
    "MoveReason",
    "PlanSnapshot",
    "Referral",
    "Urgency",
]
