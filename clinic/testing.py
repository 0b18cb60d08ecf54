"""pytest behind Django's own command: `python3 manage.py test tests/planning -k clock -x`.

With nothing typed behind it, the whole suite on every processor.
"""

from collections.abc import Sequence
from typing import Any

import pytest


class PytestRunner:
    """Hands every argument to pytest as it was typed; manage.py sees that Django does not."""

    def __init__(self, **options: Any) -> None:
        """Take Django's options, all left at their defaults."""

    def run_tests(self, test_labels: Sequence[str], **options: Any) -> int:
        """Run pytest; return its exit code, 0 when every test passed."""
        return int(pytest.main(list(test_labels) or ["-n", "auto"]))
