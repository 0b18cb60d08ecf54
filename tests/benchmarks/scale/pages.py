"""The pages that are measured, each as somebody of the clinic opens it."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import User
from clinic.patients.models import Patient, Stoma
from clinic.visits.actions.start import start_visit
from clinic.visits.chart import Chart
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts

#: The same person of the invented clinic in both databases, with a leak and some visits.
PERSON = "FL2040"


#: What a page with scripts sends shortly after a size was typed.
AUTOSAVE = "autosave of a size"


@dataclass(frozen=True)
class Taken:
    """One opening of a page: seconds, those of the server's own processor, and each statement with
    its own seconds."""

    seconds: float
    processor: float
    statements: tuple[tuple[float, str], ...]


def addresses() -> dict[str, tuple[str, str]]:
    """Page -> who opens it, and where."""
    person = Patient.objects.get(record_number=PERSON)
    stoma = Stoma.objects.filter(patient=person)[0]
    draft = _draft(stoma)
    return {
        "clinic day": ("nurse", "/"),
        "surgeon's day": ("surgeon", "/"),
        "day's sheets": ("desk", reverse("documents:day_sheets")),
        "search, a name": ("nurse", reverse("patients:find") + f"?q={person.family_name[:6]}"),
        "search, common": ("nurse", reverse("patients:find") + "?q=Oakenford"),
        "search, mistyped": ("nurse", reverse("patients:find") + "?q=Thornwik+Albetr"),
        "search, a number": ("nurse", reverse("patients:find") + f"?q={PERSON}"),
        "record": ("nurse", reverse("patients:record", args=[person.uuid])),
        "visit page": ("nurse", reverse("charting:chart", args=[draft.uuid])),
        AUTOSAVE: ("nurse", reverse("charting:save", args=[draft.uuid])),
        "trend": ("surgeon", reverse("trends:stoma", args=[stoma.uuid])),
        "wear log": ("nurse", reverse("visits:wear_log", args=[stoma.uuid])),
        "referrals": ("surgeon", reverse("referrals:referrals")),
        "measures": ("lead", reverse("measures:clinic")),
        "measures, a group": ("lead", reverse("measures:clinic") + "?stoma=ileostomy&age=65-79"),
        "measures, tried": ("lead", reverse("measures:tried")),
        "measures, quarters": ("lead", reverse("measures:over_time")),
    }


def _draft(stoma: Stoma) -> Assessment:
    nurse = User.objects.get(username="nurse")
    open_now = Assessment.objects.filter(stoma=stoma, visit__state="draft").first()
    if open_now is not None:
        return open_now
    visit = start_visit(stoma=stoma, by=nurse, at=timezone.now())
    return visit.assessments.all()[0]


def opener() -> Callable[[str, str], Taken]:
    """Opens a page as somebody, and says what it took."""
    clients: dict[str, Client] = {}

    def client(name: str) -> Client:
        if name not in clients:
            clients[name] = Client()
            clients[name].force_login(User.objects.get(username=name))
        return clients[name]

    def opened(name: str, address: str) -> Taken:
        signed_in = client(name)
        typed = _typed(address) if address.endswith("/save/") else None
        with CaptureQueriesContext(connection) as asked:
            began, worked = time.perf_counter(), time.process_time()
            if typed is None:
                answer = signed_in.get(address)
            else:
                answer = signed_in.post(address, typed, headers={"X-Autosave": "1"})
            seconds, processor = time.perf_counter() - began, time.process_time() - worked
        assert answer.status_code == 200, (address, answer.status_code)
        statements = tuple((float(q["time"]), q["sql"]) for q in asked)
        return Taken(seconds, processor, statements)

    return opened


def _typed(address: str) -> dict[str, object]:
    """The whole page as stored, with another length."""
    draft = with_parts().get(uuid=address.rstrip("/").split("/")[-2])
    posted: dict[str, object] = dict(Chart(draft).as_posted())
    before = getattr(draft, "measurement", None)
    other = 31 if before is None or before.length_mm == 30 else 30
    return posted | {"stoma-length_mm": other, "version": draft.visit.version}


def explained(sql: str) -> str:
    """The database's own plan of a statement, without what names the actor before it."""
    own = sql.partition("; ")[2] if sql.startswith("SELECT set_config") else sql
    with connection.cursor() as cursor:
        cursor.execute(f"EXPLAIN (ANALYZE, BUFFERS) {own}")
        return "\n".join(row[0] for row in cursor.fetchall())
