"""The one way to keep a model's history: every row as it was, who changed it, when."""

from typing import Any

import pghistory
from django.db import models


def tracked(*, exclude: list[str] | None = None) -> Any:
    """Class decorator: every insert, update and delete leaves a row that nothing can change."""

    def decorate(model: type[models.Model]) -> type[models.Model]:
        return pghistory.track(
            pghistory.InsertEvent(),
            pghistory.UpdateEvent(),
            pghistory.DeleteEvent(),
            exclude=exclude,
            append_only=True,
        )(model)

    return decorate
