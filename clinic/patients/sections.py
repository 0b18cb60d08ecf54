"""What other apps add to a patient's page, without this app knowing them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.http import HttpRequest
from django.template.loader import render_to_string
from django.utils.safestring import SafeString

from clinic.patients.models import Patient


@dataclass(frozen=True)
class Section:
    """One part of the page: a heading, a template and what it is rendered with."""

    title: str
    template: str
    context: Mapping[str, Any] = field(default_factory=dict)


Builder = Callable[[HttpRequest, Patient], Section | None]

_builders: list[tuple[int, Builder]] = []


def register(order: int, builder: Builder) -> None:
    """Show ``builder``'s section, lower ``order`` first. Call it from ``AppConfig.ready``.

    The builder returns None where there is nothing to show, or the person may not see it:
    a clinical section asks for ``Right.SEE_CLINICAL`` itself.
    """
    if (order, builder) not in _builders:
        _builders.append((order, builder))
        _builders.sort(key=lambda entry: entry[0])


def sections_for(request: HttpRequest, patient: Patient) -> list[tuple[str, SafeString]]:
    """Title and rendered body of every registered section with something to show here.

    A template sees the section's own context, ``patient``, and what every page knows.
    """
    built = (builder(request, patient) for _, builder in _builders)
    return [
        (
            section.title,
            render_to_string(section.template, {**section.context, "patient": patient}, request),
        )
        for section in built
        if section is not None
    ]
