"""What of printing is kept: pages, what was printed of them, and edits of care sheets."""

from clinic.documents.kinds import Kind
from clinic.documents.models.printed import PrintedDocument
from clinic.documents.models.rendering import Rendering, StoredFile
from clinic.documents.models.sheet_edit import SheetEdit

__all__ = ["Kind", "PrintedDocument", "Rendering", "SheetEdit", "StoredFile"]
