"""Referrals: questions to colleagues, answers, alarms."""

from django.apps import AppConfig


class ReferralsConfig(AppConfig):
    name = "clinic.referrals"
    label = "referrals"
    verbose_name = "referrals"
