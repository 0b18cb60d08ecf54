"""The clock face as an image of its own: inside the page, each of its lines would be styled like
the page's text. As an image it saves 1 to 6 ms of the 190 ms that a full sheet takes."""

from base64 import b64encode
from xml.etree import ElementTree

from django.template.loader import render_to_string

from clinic.trends.drawing.svg import tag, written
from clinic.visits.presenters.clockface import Face

#: What the address of a drawing that is part of the page begins with.
INSIDE = "data:image/svg+xml;base64,"
#: Words go beside the image; of the patterns for all there is, a face shows a few.
_WORDS = (tag("title"), tag("desc"))


def address_of(face: Face) -> str:
    """The drawing, whole, as an address for ``img``."""
    return INSIDE + b64encode(drawing_of(face)).decode()


def drawing_of(face: Face) -> bytes:
    """SVG without words, with no pattern that is not drawn."""
    svg = render_to_string("_components/clock_face.html", {"face": face})
    root = ElementTree.fromstring(svg.strip())  # noqa: S314 - rendered here, all words escaped
    for part in list(root):
        if part.tag in _WORDS:
            root.remove(part)
    for patterns in root.iter(tag("defs")):
        for pattern in list(patterns):
            if f"url(#{pattern.get('id')})" not in svg:
                patterns.remove(pattern)
    return written(root).encode()
