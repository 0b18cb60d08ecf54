"""What of printing is kept: pages, what was printed of them, and edits of care sheets."""

from clinic.documents.models.edit import SheetEdit
from clinic.documents.models.printed import Kind, PrintedDocument
from clinic.documents.models.rendering import Rendering, StoredFile

__all__ = ["Kind", "PrintedDocument", "Rendering", "SheetEdit", "StoredFile"]
