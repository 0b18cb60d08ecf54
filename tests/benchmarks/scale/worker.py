"""One database's side: makes it, then opens pages when told to, a line of JSON for each.

Started by the benchmark with DATABASE_URL set; reads a page's name or ``EXPLAIN name`` a line.
"""

import json
import sys

import django

if __name__ == "__main__":
    django.setup()

    from tests.benchmarks.scale.generate import generate, people, visits
    from tests.benchmarks.scale.pages import addresses, explained, opener

    generate(int(sys.argv[1]))
    where, opened = addresses(), opener()
    print(json.dumps({"people": people(), "visits": visits(), "pages": list(where)}), flush=True)
    for line in sys.stdin:
        words = line.strip()
        page = words.removeprefix("EXPLAIN ")
        taken = opened(*where[page])
        answer: dict[str, object] = {
            "seconds": taken.seconds,
            "queries": taken.queries,
            "slowest": taken.slowest,
        }
        if words != page:
            answer["plan"] = explained(taken.slowest[1])
        print(json.dumps(answer), flush=True)
