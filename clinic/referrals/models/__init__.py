"""Referrals and alarms. Import models from here."""

from clinic.referrals.models.alarm import Alarm
from clinic.referrals.models.referral import CameBy, Referral, Urgency

__all__ = ["Alarm", "CameBy", "Referral", "Urgency"]
