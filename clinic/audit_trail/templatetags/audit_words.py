"""Filters of the audit page."""

from collections.abc import Mapping
from typing import Any

from django import template

register = template.Library()


@register.filter
def lookup(words: Mapping[Any, str], key: Any) -> str:
    """``words[key]``, or "" where there is none."""
    return words.get(key, "")
