"""Two forms of the sign-in package, each with one rule more."""

from allauth.account.forms import ChangePasswordForm
from allauth.mfa.models import Authenticator
from allauth.mfa.totp.forms import ActivateTOTPForm
from allauth.mfa.totp.internal.auth import TOTP
from django import forms


class NewPasswordForm(ChangePasswordForm):
    """The new password is another one: a lead knows the first."""

    def clean_password1(self) -> str:
        new = str(self.cleaned_data["password1"])
        if new == self.cleaned_data.get("oldpassword"):
            raise forms.ValidationError("Choose another password than the current one.")
        return new


class CodeUsedOnceForm(ActivateTOTPForm):
    """The code that sets the app up counts as used: it does not sign in as well."""

    def clean_code(self) -> str:
        code = str(super().clean_code())
        TOTP(Authenticator(user=self.user))._mark_code_used(code)
        return code
