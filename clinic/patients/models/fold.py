"""Names compared without case or accents, in the database, so that an index can serve."""

from django.db import models


class Fold(models.Func):
    """``clinic_fold(text)``: lower case, accents off. Made immutable in the first migration."""

    function = "clinic_fold"
    output_field = models.TextField()


def known(field: str, choices: type[models.TextChoices], *, blank: bool) -> models.Q:
    """The condition that ``field`` holds one of ``choices``, or "" where ``blank``."""
    return models.Q(**{f"{field}__in": [*choices.values, *([""] if blank else [])]})
