"""One database's side: makes it, then opens pages on request, a line of JSON for each.

Started by the benchmark with DATABASE_URL set. Reads a page's name a line; a tab and seconds behind
it ask for the plans of its statements that take so long.
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
        page, _, least = line.strip().partition("\t")
        taken = opened(*where[page])
        answer: dict[str, object] = {
            "seconds": taken.seconds,
            "processor": taken.processor,
            "queries": len(taken.statements),
        }
        if least:
            slow = [sql for seconds, sql in taken.statements if seconds >= float(least)]
            answer["plans"] = [f"{sql}\n{explained(sql)}\n" for sql in slow]
        print(json.dumps(answer), flush=True)
