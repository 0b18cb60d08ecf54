"""Two who give the same at one moment: the second reads it beside the field."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction


@contextmanager
def said_beside(field: str, words: str) -> Iterator[None]:
    """Both pass the form's check, the database refuses the second: ``words`` beside ``field``."""
    try:
        with transaction.atomic():
            yield
    except IntegrityError as refused:
        if field not in str(refused):
            raise
        raise ValidationError({field: words}) from None
