"""The sign-in pages, chosen one by one: there is no sign-up and no e-mail here."""

from allauth.account import views as account
from django.urls import include, path

from clinic.accounts import views

urlpatterns = [
    path("", account.login, name="account_login"),
    path("out/", account.logout, name="account_logout"),
    path("lock/", views.lock_now, name="account_lock"),
    path("locked/", views.locked, name="account_locked"),
    path("inactive/", account.account_inactive, name="account_inactive"),
    path("confirm/", account.reauthenticate, name="account_reauthenticate"),
    path("password/", account.password_change, name="account_change_password"),
    path("second-factor/", include("allauth.mfa.urls")),
    # allauth asks for these names; the pages behind them are closed here.
    path("sign-up/", views.closed, name="account_signup"),
    path("e-mail/", views.closed, name="account_email"),
    path("forgotten/", views.forgotten, name="account_reset_password"),
    path("set-password/", views.closed, name="account_set_password"),
]
