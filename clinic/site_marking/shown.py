"""A marking as the page and the paper show it: marks on the drawing, and what was checked."""

from __future__ import annotations

from dataclasses import dataclass

from clinic.site_marking.choices import CRITERIA, POSTURES
from clinic.site_marking.drawing import Mark, mark_of
from clinic.site_marking.models import MarkedSite, SiteMarking


@dataclass(frozen=True)
class Shown:
    """``checks``: each thing asked, with the answer for each site; None: not checked."""

    marking: SiteMarking
    sites: list[MarkedSite]
    marks: list[Mark]
    checks: list[tuple[str, list[bool | None]]]


def shown(marking: SiteMarking) -> Shown:
    sites = list(marking.sites.all())
    asked = [(name, label) for name, label in CRITERIA.items()]
    asked += [(name, f"Checked: {label.lower()}") for name, label in POSTURES.items()]
    checks = [(label, [getattr(site, name) for site in sites]) for name, label in asked]
    return Shown(marking, sites, [mark_of(site) for site in sites], checks)
