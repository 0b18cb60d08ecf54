"""Two people with the same form open: the second is warned, and nothing of either is lost."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from clinic import formatting


class EditConflictGuard(forms.ModelForm):
    """A form that knows which version of the row it was opened on.

    The version is the newest history row; every tracked model has ``events``.
    """

    seen = forms.CharField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["seen"].initial = self._newest()[0]

    def clean_seen(self) -> str:
        newest, when = self._newest()
        typed = str(self.cleaned_data["seen"])
        if self.instance.pk and typed != newest:
            # Saving again, now knowingly, goes through.
            self.data = dict(self.data.items()) | {self.add_prefix("seen"): newest}
            raise ValidationError(
                f"Someone changed this record ({when}) while this page was open. What you typed "
                "is still here: compare it with the record, then save again.",
            )
        return typed

    def _newest(self) -> tuple[str, str]:
        if not self.instance.pk:
            return "", ""
        event = self.instance.events.order_by("-pgh_id").first()
        return (str(event.pgh_id), formatting.moment(event.pgh_created_at)) if event else ("", "")
