"""What holds for one record and one person for a while: kept in the session, and gone with it."""

from dataclasses import dataclass
from datetime import timedelta

from django.http import HttpRequest
from django.utils import timezone

from clinic.patients.models import Patient


@dataclass(frozen=True)
class KeptAWhile:
    """``key``: its place in the session, where until when is kept by the patient's id."""

    key: str
    holds: timedelta

    def keep(self, request: HttpRequest, patient: Patient) -> None:
        """From now on; what has run out is forgotten."""
        now = timezone.now()
        kept = {who: until for who, until in self._all(request).items() if until > now.timestamp()}
        request.session[self.key] = {**kept, str(patient.uuid): (now + self.holds).timestamp()}

    def is_kept(self, request: HttpRequest, patient: Patient) -> bool:
        """Whether it was kept for this record, in this session, not too long ago."""
        until = self._all(request).get(str(patient.uuid), 0)
        return timezone.now().timestamp() < until

    def _all(self, request: HttpRequest) -> dict[str, float]:
        found: dict[str, float] = request.session.get(self.key, {})
        return found
