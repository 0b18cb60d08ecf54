"""Static files as production serves them: every module is asked for under its hashed name."""

import re
from pathlib import Path

import pytest
from django.contrib.staticfiles.storage import staticfiles_storage
from django.core.management import call_command
from pytest_django import Settings

IMPORT = re.compile(r"""\bfrom\s+["']\./([\w.-]+)["']""")
LOADED = re.compile(r"{% static '(js/[\w-]+\.js)' %}")
HASHED = re.compile(r"[\w-]+\.[0-9a-f]{12}\.js")


@pytest.fixture
def collected(settings: Settings, tmp_path: Path) -> Path:
    """Everything collected as for production."""
    settings.STATIC_ROOT = tmp_path
    settings.STORAGES = {
        **settings.STORAGES,
        "staticfiles": {"BACKEND": "clinic.staticfiles.HashedModules"},
    }
    call_command("collectstatic", interactive=False, verbosity=0)
    return tmp_path


def test_modules_import_hashed_modules(collected: Path) -> None:
    """Otherwise a browser mixes an update's modules with those it still holds."""
    own = Path(__file__).resolve().parents[2]
    named = {
        name
        for page in (own / "templates").rglob("*.html")
        for name in LOADED.findall(page.read_text())
    }
    waiting = [collected / staticfiles_storage.url(name).removeprefix("/static/") for name in named]
    seen = set[Path]()
    while waiting:
        module = waiting.pop()
        seen.add(module)
        for name in IMPORT.findall(module.read_text()):
            assert HASHED.fullmatch(name), f"{module.name} imports {name}"
            if (found := module.parent / name) not in seen:
                waiting.append(found)
    modules = {path.stem for path in (own / "static" / "js").glob("*.js")}
    assert {module.name.split(".")[0] for module in seen} == modules
