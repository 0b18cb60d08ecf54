"""One version of the planner in its own process: it makes a plan each time it is asked for one.

Started by ``tests.benchmarks.two_versions`` with the root of a checkout on the path, so it uses
only what every version has. First line out: its rule set and what it plans from. Then, for each
line in, the processor seconds that so many plans took.
"""

from __future__ import annotations

import json
import sys
import time
from dataclasses import asdict

from planning import recommend
from tests.benchmarks.assessment import FULL, HISTORY


def main() -> None:
    """Answers until nothing more is asked."""
    plan = recommend(FULL, HISTORY)
    about = {"rule_set": plan.rule_set, "findings": asdict(FULL), "history": asdict(HISTORY)}
    # Sets come in another order in every process.
    print(json.dumps(about, default=lambda values: sorted(map(str, values))), flush=True)
    for line in sys.stdin:
        began = time.process_time()
        for _ in range(int(line)):
            recommend(FULL, HISTORY)
        print(time.process_time() - began, flush=True)


if __name__ == "__main__":
    main()
