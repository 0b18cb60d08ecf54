"""Tasks in words, for the day and for the record: both lists show the same rows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.http import HttpRequest
from django.utils import timezone

from clinic import formatting
from clinic.accounts.permissions import Right, may
from clinic.patients.models import Patient
from clinic.tasks import queries
from clinic.tasks.models import Task, TaskKind

#: The most that either list shows; what is beyond it is said.
AT_MOST = 30
DONE_AT_MOST = 5


@dataclass(frozen=True)
class TaskRow:
    """``late`` is "" where it is not; ``who``: for whom, and who did it once it is done."""

    task: Task
    what: str
    about: str
    who: str
    late: str


@dataclass(frozen=True)
class TaskList:
    """``beyond``: open ones that are not shown."""

    open: tuple[TaskRow, ...]
    done: tuple[TaskRow, ...]
    beyond: int = 0

    def __bool__(self) -> bool:
        return bool(self.open or self.done)


def tasks_of_day(request: HttpRequest, day: date) -> TaskList | None:
    """What is to be done on ``day``, for this person or for all; today also what is overdue.

    None for anyone who keeps no tasks. Hand it to ``tasks/_tasks_of_day.html`` as ``tasks``.
    """
    if not may(request.user, Right.KEEP_TASKS):
        return None
    today = timezone.localdate()
    rows = queries.of_day(day, request.user, with_overdue=day == today)  # type: ignore[arg-type]
    return _listed(rows, today, reader=request.user.pk)


def tasks_of_patient(request: HttpRequest, patient: Patient) -> TaskList | None:
    """Everything open about a person, for anyone, and what was done last.

    None for anyone who keeps no tasks: their words may be clinical.
    """
    if not may(request.user, Right.KEEP_TASKS):
        return None
    rows = queries.of_patient(patient)
    return _listed(rows, timezone.localdate(), reader=request.user.pk)


def _listed(rows: Iterable[Task], today: date, *, reader: int | None) -> TaskList:
    made = [_row(task, today, reader) for task in rows]
    open_rows = [row for row in made if row.task.is_open]
    done = sorted(
        (row for row in made if not row.task.is_open),
        key=lambda row: row.task.done_at or row.task.made_at,
        reverse=True,
    )
    beyond = max(0, len(open_rows) - AT_MOST)
    return TaskList(tuple(open_rows[:AT_MOST]), tuple(done[:DONE_AT_MOST]), beyond)


def _row(task: Task, today: date, reader: int | None) -> TaskRow:
    kind = str(TaskKind(task.kind).label)
    what = task.words if task.kind == TaskKind.OTHER else kind
    if task.words and task.kind != TaskKind.OTHER:
        what = f"{kind}: {task.words}"
    return TaskRow(
        task=task,
        what=what,
        about=task.stoma.short_name if task.stoma else "",
        who=_who(task, reader),
        late=_late(task, today),
    )


def _who(task: Task, reader: int | None) -> str:
    if task.for_whom is None:
        aim = "For all"
    else:
        aim = "For you" if task.for_whom_id == reader else f"For {task.for_whom.display_name}"
    if task.done_at is None or task.done_by is None:
        own = task.for_whom_id == task.made_by_id
        return aim if own else f"{aim}, from {task.made_by.display_name}"
    return f"Done by {task.done_by.display_name}, {formatting.moment(task.done_at)}"


def _late(task: Task, today: date) -> str:
    days = (today - task.day).days
    if not task.is_open or days <= 0:
        return ""
    return f"{days} day{'s' * (days != 1)} overdue"
