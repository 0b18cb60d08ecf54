from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.patients import PatientFactory
from tests.factories.tasks import TaskFactory


def patient() -> dict[str, Any]:
    return {"patient": PatientFactory().uuid}


def task() -> dict[str, Any]:
    return {"task": TaskFactory().uuid}


ROWS = {
    "tasks:add": Row(Right.KEEP_TASKS, patient),
    "tasks:done": Row(Right.KEEP_TASKS, task),
    "tasks:not_done": Row(Right.KEEP_TASKS, task),
}
