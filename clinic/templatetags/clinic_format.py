"""``clinic.formatting`` for templates: ``{% load clinic_format %}``."""

from datetime import date, datetime

from django import template
from django.utils import timezone

from clinic import formatting

register = template.Library()

for name in ("day", "moment", "clock", "partial_day", "number", "mm", "yes_no_unknown"):
    register.filter(name, getattr(formatting, name))


@register.filter
def age(born: date) -> str:
    """Age today, in the clinic's time zone."""
    return formatting.age(born, timezone.localdate())


@register.filter
def is_today(moment: datetime) -> bool:
    """Whether it was on this day, in the clinic's time zone."""
    return timezone.localdate(moment) == timezone.localdate()
