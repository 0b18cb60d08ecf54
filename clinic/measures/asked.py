"""What the address asks for: months and group, or what is wrong with them."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlencode

from django.http import HttpRequest
from django.utils import timezone

from clinic.clinic_details.current import current
from clinic.measures.forms import AskedForm
from clinic.measures.group import EVERYONE, Group
from clinic.measures.period import Period, month
from clinic.patients.models import Stoma

MONTHS = ("since", "until")


@dataclass(frozen=True)
class Asked:
    """``period`` None: the months are none, and nothing is counted."""

    form: AskedForm
    period: Period | None
    group: Group

    @property
    def usual(self) -> bool:
        """The months were not asked for."""
        return not self.form.is_bound or self.form.usual

    @property
    def query(self) -> str:
        """Months and group for an address; "" where the form does not hold."""
        if self.period is None:
            return ""
        months = {"since": month(self.period.since), "until": month(self.period.until)}
        return urlencode({**months, **self.group.asked})


def asked(request: HttpRequest) -> Asked:
    """The usual months and every stoma, where nothing else is asked for."""
    today = timezone.localdate()
    usual = Period.usual(today)
    surgeons = surgeon_names() if current().figures_by_surgeon else []
    months = {"since": month(usual.since), "until": month(usual.until)}
    named = [name for name in (*MONTHS, *Group.NAMES) if name in request.GET]
    if not named:
        form = AskedForm(initial=months, today=today, surgeons=surgeons)
        return Asked(form, usual, EVERYONE)
    # A group alone is asked about in the usual months.
    with_months = any(name in request.GET for name in MONTHS)
    data = {**({} if with_months else months), **request.GET.dict()}
    form = AskedForm(data, today=today, surgeons=surgeons)
    form.usual = not with_months
    if not form.is_valid():
        return Asked(form, None, EVERYONE)
    return Asked(form, form.period, form.group)


def surgeon_names() -> list[str]:
    """As entries of stomas name them."""
    names = Stoma.objects.order_by().values_list("surgeon", flat=True).distinct()
    return sorted({name.strip() for name in names} - {""})
