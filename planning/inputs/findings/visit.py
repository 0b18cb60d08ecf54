"""Everything one visit found at one stoma."""

from __future__ import annotations

from dataclasses import dataclass

from planning.inputs.findings.abdomen import Abdomen, OtherStoma
from planning.inputs.findings.measurement import Measurement
from planning.inputs.findings.output import Output
from planning.inputs.findings.person import Person
from planning.inputs.findings.skin import SkinFinding, Wound
from planning.inputs.findings.stoma import Stoma
from planning.inputs.findings.worn import PouchingSystem, WearEpisode


@dataclass(frozen=True, slots=True)
class Findings:
    """Everything one visit found at one stoma. ``wear`` None: no log; (): nothing worn since.

    ``wear_left_out``: rows of the log that contradict one another and so are not in ``wear``.
    ``remote``: by telephone or video; None: how is not recorded.
    """

    person: Person
    stoma: Stoma
    measurement: Measurement = Measurement()
    skin: tuple[SkinFinding, ...] | None = None
    abdomen: Abdomen = Abdomen()
    output: Output = Output()
    system: PouchingSystem | None = None
    wear: tuple[WearEpisode, ...] | None = None
    wear_left_out: int = 0
    wounds: tuple[Wound, ...] | None = None
    other_stomas: tuple[OtherStoma, ...] | None = None
    remote: bool | None = None
