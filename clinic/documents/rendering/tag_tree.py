"""The tags of a PDF made whole: what ISO 14289-1 asks for and WeasyPrint leaves out.

Each header cell says whether it heads its row or its column (7.5), and what an item of a list says
is in its body (ISO 32000-1, 14.8.4.3.3). Works on the objects before they are written.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pydyf


def complete(_document: Any, pdf: Any) -> None:
    """For WeasyPrint's ``finisher``."""
    elements = {
        one.reference: one
        for one in pdf.objects
        if isinstance(one, pydyf.Dictionary) and one.get("Type") == "/StructElem"
    }
    for element in list(elements.values()):
        if element["S"] == "/TR":
            _scopes(element, elements)
        elif element["S"] == "/LI":
            _body(element, elements, pdf)


def _scopes(row: Any, elements: dict[bytes, Any]) -> None:
    """A row of header cells alone heads its columns."""
    cells = [one for one in _kids(row, elements) if one["S"] in {"/TH", "/TD"}]
    scope = "/Column" if all(one["S"] == "/TH" for one in cells) else "/Row"
    for cell in cells:
        if cell["S"] == "/TH":
            cell["A"]["Scope"] = scope


def _body(item: Any, elements: dict[bytes, Any], pdf: Any) -> None:
    """All that is no label, in one body."""
    held = [(kid, elements.get(kid)) for kid in item["K"]]
    labels = [kid for kid, one in held if one is not None and one["S"] == "/Lbl"]
    others = [(kid, one) for kid, one in held if kid not in labels]
    if len(others) == 1 and others[0][1] is not None and others[0][1]["S"] == "/LBody":
        return
    body = pydyf.Dictionary(
        {
            "Type": "/StructElem",
            "S": "/LBody",
            "K": pydyf.Array([kid for kid, _ in others]),
            "Pg": item["Pg"],
            "P": item.reference,
        }
    )
    pdf.add_object(body)
    for _, one in others:
        if one is not None:
            one["P"] = body.reference
    item["K"] = pydyf.Array([*labels, body.reference])


def _kids(element: Any, elements: dict[bytes, Any]) -> Iterator[Any]:
    yield from (elements[kid] for kid in element["K"] if kid in elements)
