"""``python -m tests.clinic.invented_clinic.changes_over_clinic``: how many changes plans make.

Over every signed visit of the invented clinic, counted as a person would who has to do what the
plan says (``tests.planning.acceptance.counting``).
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator

HEADS = ("changes", "plans", "of them emergencies")


def counted() -> Counter[tuple[int, bool]]:
    """(changes, is an emergency) -> plans."""
    from clinic.plans.models import PlanSnapshot
    from planning.results.plan import Urgency
    from planning.results.snapshot import findings_from_dict, plan_from_dict
    from tests.planning.acceptance.counting import changes

    found: Counter[tuple[int, bool]] = Counter()
    for snapshot in PlanSnapshot.objects.all():
        plan = plan_from_dict(snapshot.plan)
        many = len(changes(plan, findings_from_dict(snapshot.findings)))
        found[many, plan.urgency is Urgency.EMERGENCY] += 1
    return found


def table(found: Counter[tuple[int, bool]]) -> Iterator[str]:
    """A line for each number of changes, then the mean."""
    yield "  ".join(HEADS)
    for many in range(max(number for number, _ in found) + 1):
        plans = found[many, False] + found[many, True]
        yield f"{many:7}  {plans:5}  {found[many, True]:19}"
    total = sum(found.values())
    mean = sum(many * plans for (many, _), plans in found.items()) / total
    yield f"{total} plans, {mean:.2f} changes a plan"


def main() -> None:
    """Load the clinic into an empty database of its own, and print."""
    from clinic.bootstrap.start import embedded_database

    os.environ["CLINIC_MODE"] = "test"
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "clinic.settings")
    with embedded_database(testing=True) as url:
        os.environ["DATABASE_URL"] = url
        import django

        django.setup()
        from django.test.runner import DiscoverRunner
        from django.utils import timezone

        from fixtures.invented_clinic.load import load

        runner = DiscoverRunner(verbosity=0, interactive=False)
        databases = runner.setup_databases()
        load(timezone.now())
        print("\n".join(table(counted())))
        runner.teardown_databases(databases)


if __name__ == "__main__":
    main()
