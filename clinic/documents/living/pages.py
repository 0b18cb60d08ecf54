"""The leaf as a page of HTML."""

from __future__ import annotations

from django.template.loader import render_to_string

from clinic.documents.living.build import Leaf


def html_of(leaf: Leaf[str]) -> str:
    """For WeasyPrint, on the paper the leaf names."""
    return render_to_string("documents/living/leaf.html", {"leaf": leaf})


def detail_of(leaf: Leaf[str]) -> str:
    """Which variant, without anything it says."""
    return "large print" if leaf.large else ""
