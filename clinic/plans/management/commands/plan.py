"""``python3 manage.py plan FILE.json``: the plan and its reasons for a findings file."""

import json
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any, NoReturn

from django.core.management.base import BaseCommand

from clinic.plans.presenters.plan_text import plan_lines
from planning import FieldError, History, InvalidFindings, findings_schema, recommend
from planning.results.snapshot import findings_from_dict, history_from_dict, plan_to_dict


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
            data = json.loads(Path(name).read_text())
        except OSError as error:
            self._refuse((FieldError("", f"{name}: {error.strerror}."),))
        except (json.JSONDecodeError, UnicodeDecodeError) as error:
            self._refuse((FieldError("", f"{name} is not JSON: {error}."),))
        if not isinstance(data, dict):
            self._refuse((FieldError("", f"{name} must hold one JSON object."),))
        return data

    def _refuse(self, errors: tuple[FieldError, ...]) -> NoReturn:
        for error in errors:
            place = f"{error.path}: " if error.path else ""
            self.stderr.write(f"{place}{error.message}")
        sys.exit(2)
