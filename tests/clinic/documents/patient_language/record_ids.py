"""Put the ids of what today's rules say on record: ``python -m`` this module. It only adds."""

from __future__ import annotations

import json
import os

import django

from clinic.documents.patient_language.recorded_ids import PATH

_NO_DATABASE = {
    "DJANGO_SETTINGS_MODULE": "clinic.settings",
    "CLINIC_MODE": "test",
    "DATABASE_URL": "postgresql:///unused",
}


def main() -> None:
    for name, value in _NO_DATABASE.items():
        os.environ.setdefault(name, value)
    django.setup()
    from tests.clinic.documents.sayable import planner

    recorded = json.loads(PATH.read_text(encoding="utf-8")) if PATH.exists() else []
    every = sorted({*map(tuple, recorded), *planner()})
    lines = ",\n".join(json.dumps(key, ensure_ascii=False) for key in every)
    PATH.write_text(f"[\n{lines}\n]\n", encoding="utf-8")
    print(f"{len(every) - len(recorded)} added, {len(every)} on record.")


if __name__ == "__main__":
    main()
