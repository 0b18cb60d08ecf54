"""How many processes run the tests, and which of them runs which: all but the first begin at the
other end.

The browser's journeys come first and the planner's many small files last. A journey waits for half
of its time, so one process more than there are processors keeps all of them busy. The first makes
the tables while the others have tests that need none, and all meet where the units are small.
"""

from __future__ import annotations

import os
from typing import Any

from xdist.scheduler.loadfile import LoadFileScheduling
from xdist.workermanage import WorkerController

#: Folders whose tests share what is slow to make: one process runs all of them.
TOGETHER = ("tests/clinic/invented_clinic/",)


class TwoEnds(LoadFileScheduling):
    """A file of tests stays in one process, and so does a folder of ``TOGETHER``."""

    def _split_scope(self, nodeid: str) -> str:
        shared = (folder for folder in TOGETHER if nodeid.startswith(folder))
        return next(shared, super()._split_scope(nodeid))

    def _assign_work_unit(self, node: WorkerController) -> None:
        if self.nodes.index(node):
            self.workqueue.move_to_end(next(reversed(self.workqueue)), last=False)
        super()._assign_work_unit(node)


def processes() -> int:
    """One more than this run may use processors."""
    return len(os.sched_getaffinity(0)) + 1


def scheduler(config: Any, log: Any) -> TwoEnds:
    """As xdist asks for it."""
    # In the order of collection, not the file of most tests first.
    config.option.loadscopereorder = False
    return TwoEnds(config, log)
