"""What the models of a visit's page have in common."""

from collections.abc import Collection
from typing import Any

from django.db import models, router
from django.db.models.functions import Coalesce


class Charted(models.Model):
    """A row whose check constraints are asked in one query; Django's own way is one for each, and
    a part of the page has dozens."""

    class Meta:
        abstract = True

    def validate_constraints(self, exclude: Collection[str] | None = None) -> None:
        """As Django's, which is asked for the messages where something does not hold."""
        if not self._all_hold(frozenset(exclude or ())):
            super().validate_constraints(exclude=exclude)

    def _all_hold(self, exclude: frozenset[str]) -> bool:
        """Whether every constraint is a check and holds; those of excluded fields are not asked."""
        constraints = [c for _, of_model in self.get_constraints() for c in of_model]
        checks = [c.condition for c in constraints if isinstance(c, models.CheckConstraint)]
        if len(checks) < len(constraints):
            return False
        asked = [
            # Unknown holds, as it does in the database.
            Coalesce(check, True, output_field=models.BooleanField())
            for check in map(models.Q, checks)
            if not check.referenced_base_fields & exclude
        ]
        row: Any = self  # the map is Django's own, left out of its types
        against = row._get_field_expression_map(meta=self._meta, exclude=exclude)
        using = router.db_for_write(type(self), instance=self)
        return not asked or models.Q(*asked).check(against, using=using)
