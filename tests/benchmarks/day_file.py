"""The day's file as a clinic prints it: sheets of the visits before, in one file.

    DATABASE_URL=… CLINIC_MODE=demo SECRET_KEY=… python -m tests.benchmarks.day_file

On a database with the invented clinic in it, which stays as it is. The sheets of all signed visits,
some twice to make up the number, go into one file: first as if none had ever been set, then as they
are printed on the day, each known from its own visit or set the evening before. Beside a sheet, in
the same run: static text of as many pages. Wall time, with the database's.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from itertools import cycle, islice
from statistics import median

SHEETS = 200


def main() -> None:
    """Measures and prints."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "clinic.settings")
    import django

    django.setup()
    from django.db import transaction

    with transaction.atomic():
        run()
        transaction.set_rollback(True)


def run() -> None:
    """One file of all sheets, set again and from what is kept."""
    from clinic.documents.day_batch.build import joined
    from clinic.documents.models import Rendering
    from clinic.visits.choices import VisitState
    from clinic.visits.models import Assessment

    signed = Assessment.objects.filter(visit__state=VisitState.SIGNED).order_by("id")
    known = list(signed.values_list("uuid", flat=True))
    sheets = list(islice(cycle(known), SHEETS))
    Rendering.objects.all().delete()
    anew = _seconds(lambda: joined(known).file.close()) / len(known)
    again = _seconds(lambda: joined(sheets).file.close()) / len(sheets)
    text = median(_static(number) for number in range(40))
    print(f"{len(sheets)} sheets of {len(known)} visits in one file, wall time a sheet")
    print(
        f"set for the first time {anew * 1000:.0f} ms, known from its visit {again * 1000:.0f} ms"
    )
    print(f"static text of two pages by WeasyPrint alone {text * 1000:.0f} ms")
    print(
        f"ratio on the day {again / text:.2f}, where no sheet is known {anew / text:.2f} (aim 1.3)"
    )


def _static(number: int) -> float:
    from tests.benchmarks.papers import by_the_manual, static

    text = static(55, number)
    return _seconds(lambda: by_the_manual(text))


def _seconds(work: Callable[[], object]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


if __name__ == "__main__":
    main()
