"""Catalogues compiled: ``python -m tests.clinic.documents.catalogues`` after a .po was changed."""

import tempfile
from pathlib import Path

import polib

from clinic.documents.patient_language.catalogue import DOMAIN, FOLDER

LANGUAGES = tuple(sorted(path.name for path in FOLDER.iterdir()))


def po_path(language: str) -> Path:
    return FOLDER / language / "LC_MESSAGES" / f"{DOMAIN}.po"


def entries(language: str) -> dict[tuple[str, str], polib.POEntry]:
    """By context ("" for none) and English sentence."""
    found = polib.pofile(str(po_path(language)))
    return {(entry.msgctxt or "", entry.msgid): entry for entry in found}


def compiled(language: str) -> bytes:
    """What the .mo beside the .po must hold."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "compiled.mo"
        polib.pofile(str(po_path(language))).save_as_mofile(str(out))
        return out.read_bytes()


if __name__ == "__main__":
    for code in LANGUAGES:
        po_path(code).with_suffix(".mo").write_bytes(compiled(code))
