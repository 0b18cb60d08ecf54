"""The demo's secret key: made once, kept in a hidden file that only its owner reads."""

import os
import secrets
from pathlib import Path

from clinic.bootstrap.messages import require_writable


def secret_key(file: Path) -> str:
    """Return the key kept in the file, making the file the first time."""
    try:
        return file.read_text(encoding="ascii")
    except FileNotFoundError:
        require_writable(file.parent)
    descriptor = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(descriptor, "w", encoding="ascii") as stream:
        key = secrets.token_urlsafe(50)
        stream.write(key)
    return key
