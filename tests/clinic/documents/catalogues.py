"""What the catalogues of wording hold, for tests that go over them."""

import polib

from clinic.documents.patient_language.catalogue import FOLDER, po_path

LANGUAGES = tuple(sorted(path.name for path in FOLDER.iterdir()))


def entries(language: str) -> dict[tuple[str, str], polib.POEntry]:
    """By context ("" for none) and English sentence."""
    found = polib.pofile(str(po_path(language)))
    return {(entry.msgctxt or "", entry.msgid): entry for entry in found}
