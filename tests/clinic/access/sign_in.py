from typing import Any

from tests.clinic.access import Open, Row


def key() -> dict[str, Any]:
    return {"pk": 1}


ROWS = {
    "account_login": Row(Open.PUBLIC),
    "account_inactive": Row(Open.PUBLIC),
    "account_signup": Row(Open.PUBLIC),
    "account_email": Row(Open.PUBLIC),
    "account_reset_password": Row(Open.PUBLIC),
    "account_set_password": Row(Open.PUBLIC),
    "account_logout": Row(Open.PUBLIC),
    "mfa_authenticate": Row(Open.PUBLIC),
    "mfa_login_webauthn": Row(Open.PUBLIC),
    "account_lock": Row(Open.SIGNED_IN),
    "account_locked": Row(Open.SIGNED_IN),
    "account_reauthenticate": Row(Open.SIGNED_IN),
    "account_change_password": Row(Open.SIGNED_IN),
    "mfa_index": Row(Open.SIGNED_IN),
    "mfa_reauthenticate": Row(Open.SIGNED_IN),
    "mfa_activate_totp": Row(Open.SIGNED_IN),
    "mfa_deactivate_totp": Row(Open.SIGNED_IN),
    "mfa_view_recovery_codes": Row(Open.SIGNED_IN),
    "mfa_generate_recovery_codes": Row(Open.SIGNED_IN),
    "mfa_download_recovery_codes": Row(Open.SIGNED_IN),
    "mfa_list_webauthn": Row(Open.SIGNED_IN),
    "mfa_add_webauthn": Row(Open.SIGNED_IN),
    "mfa_reauthenticate_webauthn": Row(Open.SIGNED_IN),
    "mfa_remove_webauthn": Row(Open.SIGNED_IN, key),
    "mfa_edit_webauthn": Row(Open.SIGNED_IN, key),
}
