"""``manage.py plan``: reasons for a findings file, every error of a bad one, the schema."""

import json
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

LEAKING: dict[str, Any] = {
    "person": {"age_years": 60},
    "stoma": {"kind": "ileostomy"},
    "measurement": {"length_mm": 30, "width_mm": 28, "protrusion_mm": 4},
    "skin": [{"kind": "erosion", "hours": [5, 6, 7], "outer_mm": 20, "moist": True}],
}


def write(folder: Path, data: Any) -> str:
    path = folder / "findings.json"
    text = data if isinstance(data, (str, bytes)) else json.dumps(data)
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return str(path)


def test_plan_and_reasons(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    call_command("plan", write(tmp_path, LEAKING))
    out = capsys.readouterr().out
    assert "because" in out
    assert "Technique:" in out
    assert "never replaces" in out


def test_without_an_age_no_plan_is_made_and_the_age_is_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    call_command("plan", write(tmp_path, {**LEAKING, "person": {}}))
    out = capsys.readouterr().out
    assert "The age is not recorded: no plan is made until it is known" in out
    assert "Technique:" not in out


def test_the_whole_plan_as_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    call_command("plan", write(tmp_path, {**LEAKING, "history": {}}), "--json")
    plan = json.loads(capsys.readouterr().out)
    assert plan["recommendations"]


@pytest.mark.parametrize(
    ("data", "paths"),
    [
        (
            {
                **LEAKING,
                "stoma": {"kind": "igloo"},
                "measurement": {"length_mm": "wide", "colour": "tartan"},
            },
            ["stoma.kind", "measurement.length_mm", "measurement.colour"],
        ),
        ({**LEAKING, "skin": [{"kind": "erosion", "hours": [13]}]}, ["skin[0].hours"]),
        ({**LEAKING, "mood": "fine"}, ["mood"]),
        ("{not json", ["not JSON"]),
        ([1, 2], ["one JSON object"]),
        ("[" * 100_000, ["levels"]),
        ({**LEAKING, "note": "x" * 2_000_000}, ["characters"]),
        ('{"stoma": {"kind": "ileostomy"}, "stoma": {}}', ["“stoma” is given twice"]),
        ('{"measurement": {"length_mm": ' + "9" * 5000 + "}}", ["15 digits"]),
        ({**LEAKING, "measurement": {"length_mm": float("inf")}}, ["length_mm"]),
        ('{"stoma": {"kind": "\\ud800"}}', ["cannot be stored"]),
        ({**LEAKING, "skin": ["x" * 5000]}, ["skin[0]", " …"]),
        (b'{"stoma": "\xe9"}', ["not JSON"]),
        (b"\0", ["not JSON"]),
    ],
)
def test_a_bad_file_gets_every_error_with_its_path(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], data: Any, paths: list[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        call_command("plan", write(tmp_path, data))
    assert ended.value.code == 2
    err = capsys.readouterr().err
    assert all(path in err for path in paths), err


def test_a_missing_file_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        call_command("plan", "nowhere.json")
    assert ended.value.code == 2
    assert "nowhere.json" in capsys.readouterr().err


def test_the_schema_is_json(capsys: pytest.CaptureFixture[str]) -> None:
    call_command("plan", "--schema")
    schema = json.loads(capsys.readouterr().out)
    assert schema["$schema"].startswith("https://json-schema.org/")
