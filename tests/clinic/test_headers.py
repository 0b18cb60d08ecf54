"""What every page asks of the browser, and what is left in it after signing out."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse

from clinic.headers import CLOSED
from tests.factories.accounts import UserFactory

TEMPLATES = Path(settings.BASE_DIR) / "templates"
SHOWN = "print(s.SECURE_HSTS_SECONDS, s.SECURE_HSTS_INCLUDE_SUBDOMAINS, s.SECURE_HSTS_PRELOAD)"


@pytest.mark.django_db
def test_a_page_may_use_nothing_of_the_device_but_passkeys(client: Client) -> None:
    policy = client.get(reverse("account_login")).headers["Permissions-Policy"]
    open_to = {name: who for name, who in re.findall(r"([\w-]+)=\((\w*)\)", policy) if who}
    assert open_to == {
        "publickey-credentials-get": "self",
        "publickey-credentials-create": "self",
    }
    assert {"camera", "microphone", "geolocation"} <= set(CLOSED)
    assert all(f"{name}=()" in policy for name in CLOSED)


def test_no_script_asks_for_what_is_closed() -> None:
    asked = r"getUserMedia|navigator\.(clipboard|geolocation|share|wakeLock|usb|bluetooth|serial)"
    scripts = list((Path(settings.BASE_DIR) / "static/js").glob("*.js"))
    assert scripts
    assert not [one.name for one in scripts if re.search(asked, one.read_text())]


@pytest.mark.django_db
def test_signing_out_empties_the_cache_and_leaves_what_is_not_sent_yet(client: Client) -> None:
    client.force_login(UserFactory())
    assert "Clear-Site-Data" not in client.get(reverse("patients:find")).headers
    answer = client.post(reverse("account_logout"))
    # Not "storage": sealed entries of anybody wait there. Not "cookies": not ours alone.
    assert answer.headers["Clear-Site-Data"] == '"cache"'
    for name in (settings.SESSION_COOKIE_NAME, settings.CSRF_COOKIE_NAME):
        assert answer.cookies[name]["max-age"] == 0, name
    assert "Clear-Site-Data" not in client.get(reverse("account_login")).headers


def test_no_title_has_a_record_number_or_a_name() -> None:
    """Titles are kept by the browser's history, for the next person there."""
    titles = {
        path.name: re.findall(r"(?s)\{% block title %\}(.*?)\{% endblock %\}", path.read_text())
        for path in TEMPLATES.rglob("*.html")
    }
    assert sum(map(len, titles.values())) > 40
    for name, found in titles.items():
        for title in found:
            assert not re.search(r"\{\{(?! words\.title )", title) or name == "base.html", name


def test_how_long_browsers_keep_to_https_is_a_setting() -> None:
    by_itself = {
        "CLINIC_MODE": "production",
        "DATABASE_URL": "postgresql:///unused",
        "SECRET_KEY": "x" * 60,
        "ALLOWED_HOSTS": "clinic.example",
    }
    set_here = {"HSTS_SECONDS": "300", "HSTS_SUBDOMAINS": "false", "HSTS_PRELOAD": "false"}
    said = [
        subprocess.run(
            [sys.executable, "-c", f"import clinic.settings as s; {SHOWN}"],
            env={**os.environ, **by_itself, **more},
            cwd=settings.BASE_DIR,
            capture_output=True,
            text=True,
            check=True,
        ).stdout.split()
        for more in ({}, set_here)
    ]
    assert said == [["31536000", "True", "True"], ["300", "False", "False"]], json.dumps(said)
