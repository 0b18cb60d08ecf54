"""Which stomas a lead asks about: by kind, how it was made, for how long, the age, the surgeon.

None of it is of one person, so it may be in an address.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Final
from urllib.parse import urlencode

from django.db.models import TextChoices

from clinic.patients.models.stoma import Construction, Permanence, StomaKind


class Age(TextChoices):
    """On the last day that is counted. Under 16 the planner's rules are those for children; the
    other limits are a design value of this page, no source."""

    CHILD = "0-15", "Under 16"
    ADULT = "16-64", "16 to 64"
    OLDER = "65-79", "65 to 79"
    OLDEST = "80-", "80 and over"


@dataclass(frozen=True)
class Group:
    """ "" for any. ``surgeon``: as the stoma's entry names the surgeon."""

    stoma: str = ""
    made: str = ""
    lasting: str = ""
    age: str = ""
    surgeon: str = ""

    NAMES: ClassVar = ("stoma", "made", "lasting", "age", "surgeon")

    @property
    def asked(self) -> dict[str, str]:
        """What is asked for, by name; empty for every stoma of the clinic."""
        return {name: value for name, value in self._all.items() if value}

    @property
    def query(self) -> str:
        """For an address."""
        return urlencode(self.asked)

    @property
    def values(self) -> dict[str, str]:
        """For the statements below."""
        return {f"group_{name}": value for name, value in self._all.items()}

    @property
    def words(self) -> str:
        """``Ileostomy, End, 65 to 79``; "" for every stoma."""
        said = [
            str(_LABELS[name][value]) if name in _LABELS else f"surgeon {value}"
            for name, value in self.asked.items()
        ]
        return ", ".join(said)

    @property
    def _all(self) -> dict[str, str]:
        return {name: getattr(self, name) for name in self.NAMES}


EVERYONE: Final = Group()
_LABELS: Final[Mapping[str, dict[Any, Any]]] = {
    "stoma": dict(StomaKind.choices),
    "made": dict(Construction.choices),
    "lasting": dict(Permanence.choices),
    "age": dict(Age.choices),
}
_AGE: Final = """CASE
        WHEN p.date_of_birth > %(until)s::date - interval '16 years' THEN '0-15'
        WHEN p.date_of_birth > %(until)s::date - interval '65 years' THEN '16-64'
        WHEN p.date_of_birth > %(until)s::date - interval '80 years' THEN '65-79'
        ELSE '80-' END"""
#: The stomas of the group, each with what it can be split by; ``except_for`` is not asked about.
CHOSEN: Final = """chosen AS (
    SELECT * FROM (
        SELECT s.id, s.patient_id, s.surgery_date, s.closed_on, s.kind AS stoma,
            s.construction AS made, s.permanence AS lasting, /* age */ AS age,
            btrim(s.surgeon) AS surgeon
        FROM patients_stoma s JOIN patients_patient p ON p.id = s.patient_id
    ) one
    WHERE (%(group_stoma)s IN ('', stoma) OR %(except_for)s = 'stoma')
        AND (%(group_made)s IN ('', made) OR %(except_for)s = 'made')
        AND (%(group_lasting)s IN ('', lasting) OR %(except_for)s = 'lasting')
        AND (%(group_age)s IN ('', age) OR %(except_for)s = 'age')
        AND (%(group_surgeon)s IN ('', surgeon) OR %(except_for)s = 'surgeon')
)""".replace("/* age */", _AGE)
