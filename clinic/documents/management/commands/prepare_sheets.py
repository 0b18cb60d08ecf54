"""Set a day's care sheets before anybody waits for them: ``manage.py prepare_sheets``."""

from argparse import ArgumentParser, ArgumentTypeError
from datetime import date, timedelta
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from clinic.documents.day_batch.build import prepare
from clinic.documents.day_batch.day_lists import day_lists
from clinic.documents.rendering.unavailable import PrintingUnavailable


class Command(BaseCommand):
    """Nothing is printed and nothing is put on record: the pages are only kept."""

    help = (
        "Prepare the care sheets of everyone due on a day (tomorrow unless another is named), so "
        "that the day's file prints at once. For a timer, in the evening and after an upgrade."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--day", type=_day, help="such as 2026-03-02")

    def handle(self, *_args: Any, **options: Any) -> None:
        today = timezone.localdate()
        day = options["day"] or today + timedelta(days=1)
        sheets = [row.assessment.uuid for row in day_lists(day, today).due]
        try:
            while not prepare(sheets).done:
                pass  # each turn sets some more
        except PrintingUnavailable as unavailable:
            raise CommandError(str(unavailable)) from unavailable
        self.stdout.write(f"Sheets ready for {day.isoformat()}: {len(sheets)}.")


def _day(typed: str) -> date:
    """The last day of the calendar has no end."""
    try:
        day = date.fromisoformat(typed)
    except ValueError:
        day = date.max
    if day in (date.min, date.max):
        raise ArgumentTypeError("Write the day as year, month and day: 2026-03-02.")
    return day
