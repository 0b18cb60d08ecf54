from django.apps import AppConfig


class AccountsConfig(AppConfig):
    name = "clinic.accounts"
    verbose_name = "Users and sign-in"

    def ready(self) -> None:
        from clinic.accounts import signals  # noqa: F401  (connects the receivers)
