"""Follow-up: the day of each next visit."""

from django.apps import AppConfig


class FollowUpConfig(AppConfig):
    name = "clinic.follow_up"
    label = "follow_up"
    verbose_name = "follow-up"
