"""Fixed words of the sheet's templates, in the sheet's language."""

from unicodedata import bidirectional

from django import template
from django.template import Context
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from clinic.documents.patient_language.english_marks import CLOSE, OPEN, apart, bare, runs
from clinic.documents.patient_language.localised import reviewer
from clinic.documents.patient_language.translator import ENGLISH, Translator
from clinic.documents.rendering.clock_face_image import address_of
from clinic.patients.models import SheetLanguage
from clinic.visits.presenters.clockface import Face

register = template.Library()


@register.simple_tag(takes_context=True)
def translate(context: Context, words: str, **parts: object) -> SafeString:
    """``words``, a sentence of the catalogue, in the language of ``sheet``."""
    return spoken(_translator(context).translate(words, **parts))


@register.simple_tag(takes_context=True)
def translate_as(context: Context, meant: str, words: str) -> SafeString:
    """``words`` as they are ``meant`` (the context in the catalogue)."""
    return spoken(_translator(context).translate(words, meant))


@register.simple_tag
def in_english(words: str) -> SafeString:
    """The same in English beside it, for anyone who helps."""
    return spoken(f"{OPEN}{words}{CLOSE}")


@register.filter
def spoken(words: str) -> SafeString:
    """Words of the sheet as HTML; what stayed English is marked for eyes and for voices."""
    return format_html_join("", "{}", ((_run(piece, marked),) for piece, marked in runs(words)))


@register.simple_tag(takes_context=True)
def name(context: Context, words: str) -> str:
    """A name or number as somebody entered it: of any script, it leaves the words beside it in
    their order."""
    if runs(words) != [(words, False)]:
        return words
    turned = _translator(context).direction == "rtl" or any(
        bidirectional(sign) in {"R", "AL"} for sign in words
    )
    return apart(words) if turned else words


@register.filter
def language_note(code: str) -> str:
    """What to know before a sheet of this language is printed; "" for English."""
    if code == ENGLISH.code:
        return ""
    review = "" if reviewer(code) else ", needs review by a qualified translator"
    return f"in {SheetLanguage(code).label}{review}"


@register.simple_tag
def drawn(face: Face) -> str:
    """The address of ``face`` as an image, for paper."""
    return address_of(face)


@register.filter
def unmarked(words: str) -> str:
    """For a place that takes text alone."""
    return bare(words)


def _run(piece: str, marked: bool) -> str:
    if not marked:
        return piece
    inside = f"{OPEN}{piece}{CLOSE}"
    return format_html('<span class="in-english" lang="en" dir="ltr">{}</span>', inside)


def _translator(context: Context) -> Translator:
    sheet = context.get("sheet")
    return sheet.translator if sheet else ENGLISH
