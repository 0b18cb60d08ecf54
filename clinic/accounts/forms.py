"""What a clinic lead is asked about a member of staff."""

from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.contrib.auth.password_validation import validate_password

from clinic.accounts.models import User

OWN_NAMES = ("username", "first_name", "last_name")
HANDED_OVER = "At least 15 characters; several unrelated words are easiest to remember."


def _helper() -> FormHelper:
    helper = FormHelper()
    helper.form_tag = False
    return helper


class UserForm(forms.ModelForm):
    """Name, role, and whether the person may sign in."""

    helper = _helper()

    class Meta:
        model = User
        fields = ("first_name", "last_name", "role", "is_active")
        labels = {
            "first_name": "Given name",
            "last_name": "Family name",
            "is_active": "May sign in",
        }
        help_texts = {"is_active": "Untick when the person leaves. Their name stays on records."}
        widgets = {"role": forms.RadioSelect}
        error_messages = {
            "first_name": {"required": "Give the given name."},
            "last_name": {"required": "Give the family name."},
            "role": {"required": "Choose a role: it decides what they may see."},
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        role: Any = self.fields["role"]
        role.choices = [choice for choice in role.choices if choice[0]]
        for name in ("first_name", "last_name"):
            self.fields[name].required = True
            self.fields[name].widget.attrs["autocomplete"] = "off"


class PasswordMixin(forms.Form):
    """A password typed once, in the open: it is handed over by the lead, then changed."""

    password = forms.CharField(
        label="Password to hand over",
        help_text=HANDED_OVER,
        strip=False,
        max_length=200,
        widget=forms.TextInput({"autocomplete": "off", "spellcheck": "false"}),
        error_messages={"required": "Give a password."},
    )

    def clean_password(self) -> str:
        password = str(self.cleaned_data["password"])
        validate_password(password, self.owner())
        return password

    def owner(self) -> User:
        """Whose password it will be, so that it cannot resemble their name."""
        names = {name: self.cleaned_data.get(name, "") for name in OWN_NAMES}
        return User(**names)


class NewUserForm(PasswordMixin, UserForm):
    """A new member of staff."""

    field_order = ("username", "first_name", "last_name", "role", "password")

    class Meta(UserForm.Meta):
        fields = ("username", "first_name", "last_name", "role")
        error_messages = {
            **UserForm.Meta.error_messages,
            "username": {"required": "Give a user name.", "unique": "This user name is taken."},
        }
        help_texts = {"username": "Letters, digits and . _ - only"}

    def clean_username(self) -> str:
        """Sign-in ignores capitals, so two names may not differ by them alone."""
        name = str(self.cleaned_data["username"])
        if User.objects.filter(username__iexact=name).exists():
            raise forms.ValidationError("This user name is taken.", code="unique")
        return name


class PasswordForm(PasswordMixin):
    """A new password for somebody who lost theirs."""

    forget_factors = forms.BooleanField(
        label="Also remove their second factors and passkeys",
        help_text="Only if the phone or key is lost.",
        required=False,
    )
    helper = _helper()

    def __init__(self, *args: Any, user: User, **kwargs: Any) -> None:
        self.user = user
        super().__init__(*args, **kwargs)

    def owner(self) -> User:
        return self.user


class UnlockForm(forms.Form):
    """One's own password, to go on."""

    password = forms.CharField(
        label="Your password",
        strip=False,
        max_length=200,
        widget=forms.PasswordInput({"autocomplete": "current-password"}),
        error_messages={"required": "Type your password."},
    )
    helper = _helper()
