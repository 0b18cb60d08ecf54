"""Many PDFs as one, a document at a time: memory holds one of them and the list of offsets.

``pypdf.PdfWriter`` (7.1) joins too, but loses tags and language, and holds the whole file: from
50 to 200 sheets its process grows from 100 to 291 MB, this one from 38 to 39 MB.
``pypdf`` reads the parts and writes their objects; here they are only numbered again.
ISO 32000-1, 7.5 (file structure) and 14.7 (logical structure).
"""

from __future__ import annotations

import io
from array import array
from typing import Any, BinaryIO, cast

from pypdf import PdfReader
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    DictionaryObject,
    IndirectObject,
    NameObject,
    NumberObject,
    PdfObject,
    StreamObject,
    TextStringObject,
)

CATALOGUE, PAGES, TAGS, PARENTS, INFO, METADATA, FIRST_FREE = range(1, 8)


class PdfMerge:
    """Writes to ``out`` as documents are added; ``finish`` closes the file."""

    def __init__(self, out: BinaryIO, *, title: str, language: str = "en") -> None:
        self.out, self.title, self.language = out, title, language
        #: Where each object begins, by its number: 8 bytes each, all that grows with the file.
        self.offsets = array("Q", [0] * FIRST_FREE)
        self.pages: list[int] = []
        self.tags: list[int] = []
        self.parents: list[int] = []
        self.metadata = False
        self._where = out.write(b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")

    def add(self, pdf: bytes) -> None:
        """Append every page of ``pdf`` with its tags."""
        reader = PdfReader(io.BytesIO(pdf))
        _Part(self, reader).write()
        # Its objects point at the reader and it at them: let go, or they wait for the collector.
        vars(reader).clear()

    def finish(self) -> None:
        """Write what holds the pages together. Raises ``ValueError`` where there are none."""
        if not self.pages:
            raise ValueError("There is no page to join.")
        self._write(
            PAGES,
            {
                "/Type": _name("/Pages"),
                "/Kids": _refs(self.pages),
                "/Count": NumberObject(len(self.pages)),
            },
        )
        numbers = ArrayObject()
        for place, number in enumerate(self.parents):
            numbers += [NumberObject(place), _ref(number)]
        self._write(PARENTS, {"/Nums": numbers})
        self._write(
            TAGS,
            {
                "/Type": _name("/StructTreeRoot"),
                "/K": _refs(self.tags),
                "/ParentTree": _ref(PARENTS),
            },
        )
        self._write(INFO, {"/Title": _text(self.title)})
        self._write(CATALOGUE, self._catalogue())
        self._cross_references()

    def _catalogue(self) -> dict[str, PdfObject]:
        entries: dict[str, PdfObject] = {
            "/Type": _name("/Catalog"),
            "/Pages": _ref(PAGES),
            "/StructTreeRoot": _ref(TAGS),
            "/MarkInfo": _dictionary({"/Marked": _true()}),
            "/ViewerPreferences": _dictionary({"/DisplayDocTitle": _true()}),
            "/Lang": _text(self.language),
        }
        if self.metadata:
            entries["/Metadata"] = _ref(METADATA)
        return entries

    def _cross_references(self) -> None:
        start, size = self._where, len(self.offsets)
        self.out.write(f"xref\n0 {size}\n0000000000 65535 f \n".encode())
        for at in self.offsets[1:]:
            self.out.write(f"{at:010d} 00000 {'n' if at else 'f'} \n".encode())
        tail = f"trailer\n<< /Size {size} /Root {CATALOGUE} 0 R /Info {INFO} 0 R >>\n"
        self.out.write(f"{tail}startxref\n{start}\n%%EOF\n".encode())

    def _write(self, number: int, entries: dict[str, PdfObject]) -> None:
        self.put(number, _dictionary(entries))

    def put(self, number: int, what: PdfObject) -> None:
        """Write one object under its number."""
        stream = io.BytesIO()
        stream.write(f"{number} 0 obj\n".encode())
        what.write_to_stream(stream)
        stream.write(b"\nendobj\n")
        self.offsets[number] = self._where
        self._where += self.out.write(stream.getvalue())

    def number(self) -> int:
        """A number no one has yet."""
        self.offsets.append(0)
        return len(self.offsets) - 1


class _Part:
    """One document on its way into the joined file."""

    def __init__(self, whole: PdfMerge, reader: PdfReader) -> None:
        self.whole, self.reader = whole, reader
        self.root = cast("Any", reader.trailer["/Root"])
        self.tag_root = cast("Any", self.root.get("/StructTreeRoot", DictionaryObject()))
        self.first_parent = len(whole.parents)
        self.numbers: dict[int, int] = {}
        self.waiting: list[int] = []
        #: Elements that hold a whole document: each says its language, the file has but one.
        self.tops: set[int] = set()
        raw = self.root.raw_get("/StructTreeRoot") if "/StructTreeRoot" in self.root else None
        #: What the joined file holds once for all parts.
        self.shared = {raw.idnum: TAGS} if isinstance(raw, IndirectObject) else {}
        self.shared[self.root["/Pages"].indirect_reference.idnum] = PAGES

    def write(self) -> None:
        for page in self.reader.pages:
            reference: Any = page.indirect_reference
            self.whole.pages.append(self._number(reference.idnum))
        self._tags()
        self._metadata()
        while self.waiting:
            old = self.waiting.pop()
            what: Any = self._moved(self.reader.get_object(old))
            if old in self.tops and "/Lang" in self.root:
                what[NameObject("/Lang")] = self.root["/Lang"]
            self.whole.put(self.numbers[old], what)

    def _tags(self) -> None:
        held = self.tag_root.get("/K", ArrayObject())
        for top in held if isinstance(held, list) else [self.tag_root.raw_get("/K")]:
            self.whole.tags.append(self._number(top.idnum))
            self.tops.add(top.idnum)
        tree = self.tag_root.get("/ParentTree", DictionaryObject())
        flat = tree.get("/Nums", ArrayObject())
        found = {int(flat[i]): flat[i + 1] for i in range(0, len(flat), 2)}
        for place in range(max(found, default=-1) + 1):
            number = self.whole.number()
            self.whole.parents.append(number)
            self.whole.put(number, self._moved(found.get(place, ArrayObject())))

    def _metadata(self) -> None:
        """That of the first part: it says by which standard the pages are tagged."""
        if not self.whole.metadata and "/Metadata" in self.root:
            self.whole.metadata = True
            self.whole.put(METADATA, self._moved(self.root["/Metadata"]))

    def _number(self, old: int) -> int:
        if old in self.shared:
            return self.shared[old]
        if old not in self.numbers:
            self.numbers[old] = self.whole.number()
            self.waiting.append(old)
        return self.numbers[old]

    def _moved(self, what: Any) -> Any:
        """A copy with the joined file's numbers."""
        if isinstance(what, IndirectObject):
            return _ref(self._number(what.idnum))
        if isinstance(what, DictionaryObject):
            copy = StreamObject() if isinstance(what, StreamObject) else DictionaryObject()
            for key in what:
                copy[NameObject(key)] = self._entry(key, what.raw_get(key))
            if isinstance(what, StreamObject):
                copy._data = what._data  # type: ignore[attr-defined]
            return copy
        if isinstance(what, ArrayObject):
            return ArrayObject([self._moved(one) for one in what])
        return what

    def _entry(self, key: str, value: Any) -> Any:
        if key in {"/StructParents", "/StructParent"}:
            return NumberObject(int(value) + self.first_parent)
        return self._moved(value)


def _ref(number: int) -> IndirectObject:
    return IndirectObject(number, 0, None)


def _refs(numbers: list[int]) -> ArrayObject:
    return ArrayObject([_ref(number) for number in numbers])


def _name(word: str) -> NameObject:
    return NameObject(word)


def _text(words: str) -> PdfObject:
    return TextStringObject(words)


def _true() -> PdfObject:
    return BooleanObject(True)


def _dictionary(entries: dict[str, PdfObject]) -> DictionaryObject:
    return DictionaryObject({NameObject(key): value for key, value in entries.items()})
