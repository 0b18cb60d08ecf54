"""``python3 manage.py plan FILE.json``: the plan and its reasons for a findings file."""

import json
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any, NoReturn

from django.core.management.base import BaseCommand

from clinic.plans.presenters.plan_text import plan_lines
from clinic.read_json import BadJSONError, read_json
from planning import FieldError, History, InvalidFindings, findings_schema, recommend
from planning.results.snapshot import findings_from_dict, history_from_dict, plan_to_dict

#: Characters of one error.
LONGEST = 400


class Command(BaseCommand):
    """Nothing is stored and no record is read."""

    help = "Plan from a findings file (JSON; see --schema). A bad file: every error, exit code 2."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", nargs="?", help="findings; under “history” what came before")
        parser.add_argument("--json", action="store_true", help="the whole plan as JSON")
        parser.add_argument("--schema", action="store_true", help="print the JSON schema and stop")

    def handle(self, *args: Any, **options: Any) -> None:
        if options["schema"]:
            self.stdout.write(json.dumps(findings_schema(), indent=2))
            return
        data = self._read(options["file"])
        try:
            history = history_from_dict(data.pop("history", {})) if "history" in data else History()
            plan = recommend(findings_from_dict(data), history)
        except InvalidFindings as invalid:
            self._refuse(invalid.errors)
        if options["json"]:
            self.stdout.write(json.dumps(plan_to_dict(plan), indent=2, ensure_ascii=False))
        else:
            self.stdout.write("\n".join(plan_lines(plan)))

    def _read(self, name: str | None) -> dict[str, Any]:
        if name is None:
            self._refuse((FieldError("", "Name a findings file, or ask for --schema."),))
        try:
            data = read_json(Path(name).read_text(encoding="utf-8"))
        except OSError as error:
            self._refuse((FieldError("", f"{name}: {error.strerror}."),))
        except (BadJSONError, UnicodeDecodeError) as error:
            self._refuse((FieldError("", f"{name} is not JSON: {error}."),))
        if not isinstance(data, dict):
            self._refuse((FieldError("", f"{name} must hold one JSON object."),))
        return data

    def _refuse(self, errors: tuple[FieldError, ...]) -> NoReturn:
        for error in errors:
            place = f"{error.path}: " if error.path else ""
            self.stderr.write(_cut(f"{place}{error.message}"))
        sys.exit(2)


def _cut(line: str) -> str:
    """An error may quote the file, which may be long."""
    return line if len(line) <= LONGEST else f"{line[:LONGEST]} …"
