"""Form fields in which unknown, none and zero are three different answers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from clinic import formatting
from clinic.fields import OneList
from clinic.visits.choices import Hour
from clinic.visits.models.fields import limits
from planning.inputs.quantities import RADIUS, Quantity

NONE = "none"
#: What is said of too many digits after the point, by how many are kept.
FINENESS = (
    "A whole number, please.",
    "At most one digit after the point.",
    "At most two digits after the point.",
)
NOT_RECORDED = ("", "Not recorded")


class NumberField(forms.DecimalField):
    """A number typed as text, so that a slip of the keyboard is shown back and not swallowed."""

    unit = ""

    def __init__(
        self,
        *,
        min_value: Decimal,
        max_value: Decimal,
        unit: str = "",
        decimals: int = 1,
        **kwargs: Any,
    ) -> None:
        self.unit = unit
        example = "25 or 25.5" if decimals else "25"
        after = f" {unit}" if unit else ""
        super().__init__(
            min_value=min_value,
            max_value=max_value,
            max_digits=6,
            decimal_places=decimals,
            widget=forms.TextInput(
                attrs={
                    "inputmode": "decimal" if decimals else "numeric",
                    "autocomplete": "off",
                    "class": "number",
                }
            ),
            error_messages={
                "invalid": f"Write a number, such as {example}.",
                "max_decimal_places": FINENESS[decimals],
                "max_digits": "That number is too long; please check it.",
                "max_whole_digits": "That number is too long; please check it.",
                "min_value": f"At least {formatting.number(min_value)}{after}; please check.",
                "max_value": f"At most {formatting.number(max_value)}{after}; please check.",
            },
            **kwargs,
        )

    @classmethod
    def of(cls, quantity: Quantity, **kwargs: Any) -> NumberField:
        """The field of a declared quantity; ``kwargs`` as any form field takes them."""
        low, high = limits(quantity)
        return cls(
            min_value=low,
            max_value=high,
            unit=quantity.unit,
            decimals=quantity.decimals,
            **kwargs,
        )

    def to_python(self, value: Any) -> Any:
        if isinstance(value, str):
            # A decimal comma and a typographic minus are what many hands type.
            value = value.strip().replace(",", ".").replace("\u2212", "-")
        return super().to_python(value)

    def prepare_value(self, value: Any) -> Any:
        """25, not 25.0: shown back as a person would have typed it."""
        if not isinstance(value, Decimal):
            return value
        plain = f"{value:f}"
        return plain.rstrip("0").rstrip(".") if "." in plain else plain


class WordsField(OneList, forms.MultipleChoiceField):
    """Several words, *none of these*, or nothing ticked: not recorded (None)."""

    none_label = "None of these"

    def __init__(
        self,
        *,
        choices: Iterable[tuple[Any, Any]],
        none_label: str | None = none_label,
        **kwargs: Any,
    ) -> None:
        self.none_label = none_label or ""
        listed = [(str(value), label) for value, label in choices]
        if none_label:
            listed.append((NONE, none_label))
        kwargs.setdefault("widget", forms.CheckboxSelectMultiple)
        self.listed = [value for value, _ in listed]
        super().__init__(choices=listed, **kwargs)

    def prepare_value(self, value: Any) -> list[str]:
        if value is None:
            return []
        return [str(v) for v in value] or ([NONE] if self.none_label else [])

    def bound_data(self, data: Any, initial: Any) -> Any:
        """Nothing ticked comes back as nothing ticked, never as *none of these*."""
        return data or None

    def clean(self, value: Any) -> Any:
        ticked: list[str] = super().clean(value)
        if not ticked:
            return None
        if NONE in ticked and len(ticked) > 1:
            raise ValidationError(f"“{self.none_label}” is ticked together with others.")
        return [] if ticked == [NONE] else self.ordered(ticked)

    def ordered(self, ticked: Sequence[str]) -> list[Any]:
        return [value for value in self.listed if value in ticked]

    def has_changed(self, initial: Any, data: Any) -> bool:
        return set(self.prepare_value(initial)) != set(data or [])


class FirstWordsField(WordsField):
    """The words of a list that was once asked whole: ``first`` is offered, and of the later words,
    which have a list of their own now, those that are ticked already."""

    def __init__(self, *, first: Iterable[str], **kwargs: Any) -> None:
        self.first = frozenset(first)
        super().__init__(**kwargs)

    def get_bound_field(self, form: forms.BaseForm, field_name: str) -> forms.BoundField:
        bound = super().get_bound_field(form, field_name)
        shown = {*self.first, NONE, *(bound.value() or ())}
        listed: Any = self.choices
        self.widget.choices = [pair for pair in listed if pair[0] in shown]
        return bound


class HourField(OneList, forms.TypedChoiceField):
    """One hour of the clock face, from a list."""


class HoursField(WordsField):
    """Hours of the clock face as checkboxes; the drawn face ticks these same boxes."""

    def __init__(self, *, none_label: str | None = None, **kwargs: Any) -> None:
        super().__init__(choices=Hour.choices, none_label=none_label, **kwargs)
        self.widget.attrs["class"] = "hours"

    def ordered(self, ticked: Sequence[str]) -> list[int]:
        return sorted(int(value) for value in ticked)


class RadiiWidget(forms.MultiWidget):
    """Twelve small boxes, one an hour."""

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        boxes: dict[str, forms.Widget | type[forms.Widget]] = {
            str(hour): forms.TextInput(
                attrs={
                    "inputmode": "decimal",
                    "autocomplete": "off",
                    "class": "number radius",
                    "aria-label": f"Radius at {hour} o'clock, mm",
                    "placeholder": str(hour),
                }
            )
            for hour in Hour.values
        }
        super().__init__(boxes, attrs)

    def decompress(self, value: Any) -> list[Any]:
        return list(value) if value else [None] * 12


class RadiiField(forms.MultiValueField):
    """All twelve radii or none of them."""

    def __init__(self, **kwargs: Any) -> None:
        boxes = [NumberField.of(RADIUS) for _ in Hour.values]
        super().__init__(
            boxes, widget=RadiiWidget(), require_all_fields=False, **{**kwargs, "required": False}
        )
        for box in boxes:
            box.required = False

    def compress(self, data_list: list[Decimal | None]) -> list[Decimal] | None:
        missing = [str(h) for h, v in zip(Hour.values, data_list, strict=False) if v is None]
        if not data_list or len(missing) == 12:
            return None
        if missing:
            raise ValidationError(
                f"Fill in all twelve or none; still empty: {', '.join(missing)} o'clock."
            )
        return [value for value in data_list if value is not None]
