"""For a server of several processes: ``gunicorn -c python:clinic.metrics.server_hooks``.

Needed only where ``PROMETHEUS_MULTIPROC_DIR`` names a folder in which they count together.
"""

from typing import Any

from prometheus_client.multiprocess import mark_process_dead


def child_exit(server: Any, worker: Any) -> None:
    """What a process had under way ends with it."""
    mark_process_dead(worker.pid)
