"""Settings, read once from the environment; nonsense is refused at start-up.

``CLINIC_MODE`` is ``production`` (the default), ``demo`` (one machine, invented people,
plain HTTP) or ``test``. Production has no working defaults for secrets or hosts.
"""

from datetime import timedelta
from pathlib import Path
from typing import Any

from csp.constants import NONE, SELF
from django.core.exceptions import ImproperlyConfigured
from environs import Env, validate

from clinic.database.address import database

env = Env()
BASE_DIR = Path(__file__).resolve().parent.parent

MODE = env.str("CLINIC_MODE", "production")
if MODE not in {"production", "demo", "test"}:
    raise ImproperlyConfigured("CLINIC_MODE must be production, demo or test.")
PRODUCTION = MODE == "production"


def _required(name: str) -> str:
    value = env.str(name, "")
    if not value:
        raise ImproperlyConfigured(f"Set the environment variable {name}.")
    return value


SECRET_KEY = env.str("SECRET_KEY", "") if MODE == "demo" else ""
if MODE == "test":
    SECRET_KEY = "only-for-tests-" + "x" * 40
SECRET_KEY = SECRET_KEY or _required("SECRET_KEY")
DEBUG = False
ALLOWED_HOSTS = (
    _required("ALLOWED_HOSTS").split(",")
    if PRODUCTION
    else ["127.0.0.1", "localhost", "[::1]", "testserver"]
)
CSRF_TRUSTED_ORIGINS: list[str] = env.list("CSRF_TRUSTED_ORIGINS", [])

# What a printed sheet and the page head call this clinic, and whom a patient phones. These, the
# closed weekdays and the paper are first values: what the lead saves (clinic.clinic_details) wins.
CLINIC_NAME = env.str("CLINIC_NAME", "" if PRODUCTION else "Fern Lane Stoma Clinic (invented)")
CLINIC_PHONE = env.str("CLINIC_PHONE", "" if PRODUCTION else "555-0100")
CLINIC_HOURS = env.str("CLINIC_HOURS", "" if PRODUCTION else "Monday to Friday, 9 am to 4 pm")
# The same hours for sheets in another language; without them the English ones are printed, marked.
CLINIC_HOURS_TRANSLATED = {
    "es": env.str("CLINIC_HOURS_ES", "" if PRODUCTION else "lunes a viernes, de 9 a 16 h"),
    "ar": env.str("CLINIC_HOURS_AR", "" if PRODUCTION else "من الاثنين إلى الجمعة، من 9 إلى 16"),
}
# Who has read the translated sheets over, a qualified translator for each: "es=Name;ar=Name".
SHEET_REVIEWERS: dict[str, str] = {
    language.strip(): name.strip()
    for language, _, name in (
        pair.partition("=") for pair in env.str("SHEET_REVIEWERS", "").split(";") if pair.strip()
    )
}
if not set(SHEET_REVIEWERS) <= set(CLINIC_HOURS_TRANSLATED) or "" in SHEET_REVIEWERS.values():
    raise ImproperlyConfigured('SHEET_REVIEWERS is "es=Name;ar=Name", either or both.')
# Days on which no one is asked to come: 0 is Monday, 6 is Sunday.
CLINIC_CLOSED_WEEKDAYS = frozenset(env.list("CLINIC_CLOSED_WEEKDAYS", [5, 6], subcast=int))
if not set(range(7)) > CLINIC_CLOSED_WEEKDAYS:
    raise ImproperlyConfigured("CLINIC_CLOSED_WEEKDAYS lists days 0 (Monday) to 6, not all seven.")
EMERGENCY_NUMBER = env.str("EMERGENCY_NUMBER", "" if PRODUCTION else "112")
PAPER_SIZE = env.str("PAPER_SIZE", "A4", validate=validate.OneOf(["A4", "Letter"]))

INSTALLED_APPS = [
    "clinic",
    "clinic.audit",
    "clinic.once",
    "clinic.accounts",
    "clinic.clinic_details",
    "clinic.patients",
    "clinic.tasks",
    "clinic.visits",
    "clinic.trials",
    "clinic.complications",
    "clinic.teaching",
    "clinic.site_marking",
    "clinic.repeats",
    "clinic.patient_answers",
    "clinic.referrals",
    "clinic.follow_up",
    "clinic.plans",
    "clinic.trends",
    "clinic.measures",
    "clinic.measuring_error",
    "clinic.documents",
    "clinic.charting",
    "clinic.clinic_day",
    "clinic.patient_record",
    "clinic.audit_trail",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.postgres",
    "django.contrib.humanize",
    "django.forms",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "allauth",
    "allauth.account",
    "allauth.mfa",
    "allauth.usersessions",
    "crispy_forms",
    "csp",
    "django_htmx",
    "pgtrigger",
    "pghistory",
    # Last: puts rights and triggers in order after what the others do with a migration.
    "clinic.database",
]

# Counts for a program that watches the server, at /metrics, for the holder of this key; off unless
# set. The folder in which several processes count together is read by the package itself.
METRICS_KEY = env.str("METRICS_KEY", "")
METRICS_SHARED = bool(env.str("PROMETHEUS_MULTIPROC_DIR", ""))
if METRICS_KEY and len(METRICS_KEY) < 20:
    raise ImproperlyConfigured("METRICS_KEY must have 20 or more characters.")

MIDDLEWARE = [
    "clinic.metrics.middleware.MetricsMiddleware",
    "clinic.database.health.HealthMiddleware",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "clinic.accounts.middleware.NoStoreMiddleware",
    # Before all that read the request: what cannot be read ends here.
    "clinic.bad_input.BadInputMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "clinic.headers.headers_middleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    # Signed-in by default; public pages say so with login_not_required.
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    # Stamps every history row with who changed it.
    "pghistory.middleware.HistoryMiddleware",
    "clinic.accounts.middleware.session_middleware",
    "clinic.one_reading.one_reading_middleware",
    # The one place that keeps restricted records closed.
    "clinic.patients.restricted.closing.RestrictedRecords",
    "clinic.documents.desk.DeskPapers",
]

ROOT_URLCONF = "clinic.urls"
WSGI_APPLICATION = "clinic.wsgi.application"
TEST_RUNNER = "clinic.testing.PytestRunner"

TEMPLATES: list[dict[str, Any]] = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "clinic.accounts.context.rights",
                "clinic.once.context.once",
                "clinic.clinic_details.context.details",
                "clinic.referrals.context.urgent",
            ],
        },
    },
]

CRISPY_ALLOWED_TEMPLATE_PACKS = "clinic"
CRISPY_TEMPLATE_PACK = "clinic"

DATABASES = {
    "default": database(
        _required("DATABASE_URL"), behind_pgbouncer=env.bool("BEHIND_PGBOUNCER", False)
    )
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

ROLES = ("nurse", "surgeon", "desk", "lead")  # clinic.accounts.models.Role

# --- Sign-in -------------------------------------------------------------------------------
AUTH_USER_MODEL = "accounts.User"
AUTHENTICATION_BACKENDS = ["allauth.account.auth_backends.AuthenticationBackend"]
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
AUTH_PASSWORD_VALIDATORS = [
    # NIST SP 800-63B-4: at least 15 characters when the password is the only factor.
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 15},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "clinic.accounts.passwords.CommonBeneathValidator"},
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
]
LOGIN_URL = "account_login"
LOGIN_REDIRECT_URL = "/"
ACCOUNT_ADAPTER = "clinic.accounts.adapter.StaffAccountAdapter"
ACCOUNT_LOGIN_METHODS = {"username"}
ACCOUNT_SIGNUP_FIELDS = ["username*", "password1*", "password2*"]
ACCOUNT_EMAIL_VERIFICATION = "none"
ACCOUNT_LOGOUT_ON_GET = False
ACCOUNT_SESSION_REMEMBER = False
ACCOUNT_FORMS = {"change_password": "clinic.accounts.sign_in_forms.NewPasswordForm"}
# Counted by name and address together (the adapter's key), so that no one is locked out from
# elsewhere. The wait grows: a minute after 5 failures, up to an hour after 10, up to a day after
# 20, or until a lead lets them try. Design values.
ACCOUNT_RATE_LIMITS = {"login_failed": "10/m/ip,5/m/key,10/h/key,20/d/key"}
# Failed sign-ins are counted here, so every process and server has to see the same counts.
CACHES = {
    "default": {
        "BACKEND": "django.core.cache.backends.db.DatabaseCache",
        "LOCATION": "clinic_cache",
        # Few entries would let a guesser push out the counts of others.
        "OPTIONS": {"MAX_ENTRIES": 20_000},
    }
}
MFA_FORMS = {"activate_totp": "clinic.accounts.sign_in_forms.CodeUsedOnceForm"}
# Roles whose people must have a second factor: "lead,nurse".
SECOND_FACTOR_ROLES: frozenset[str] = frozenset(env.list("SECOND_FACTOR_ROLES", []))
if not set(ROLES) >= SECOND_FACTOR_ROLES:
    raise ImproperlyConfigured(f"SECOND_FACTOR_ROLES lists roles: {', '.join(ROLES)}.")
MFA_SUPPORTED_TYPES = ["totp", "webauthn", "recovery_codes"]
MFA_PASSKEY_LOGIN_ENABLED = True
MFA_ADAPTER = "clinic.clinic_details.second_factor.NamedByClinic"
MFA_TOTP_ISSUER = "Stoma clinic"  # where the clinic has no name yet
# Browsers grant passkeys on plain HTTP to localhost alone.
MFA_WEBAUTHN_ALLOW_INSECURE_ORIGIN = not PRODUCTION

# HIPAA Security Rule 45 CFR 164.312(a)(2)(iii): automatic log-off. NIST SP 800-63B-4 draft,
# AAL2: idle at most one hour. Use renews it (clinic.accounts.session_limits).
SESSION_COOKIE_AGE = 60 * env.int("SESSION_IDLE_MINUTES", 60, validate=validate.Range(5, 60))
# However much it is used; 12 hours, longer than a shift, is a design value.
SESSION_LONGEST = timedelta(
    hours=env.int("SESSION_LONGEST_HOURS", 12, validate=validate.Range(1, 24))
)
SESSION_EXPIRE_AT_BROWSER_CLOSE = True
SESSION_COOKIE_NAME = "__Host-session" if PRODUCTION else "session"
CSRF_COOKIE_NAME = "__Host-csrf" if PRODUCTION else "csrftoken"
SESSION_COOKIE_HTTPONLY = CSRF_COOKIE_HTTPONLY = True
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = PRODUCTION
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Lax"

# --- Transport and content policy ----------------------------------------------------------
SECURE_SSL_REDIRECT = PRODUCTION
# How long a browser keeps to HTTPS once it came by it; a domain that is new to HTTPS begins small.
HSTS_SECONDS = env.int("HSTS_SECONDS", 365 * 24 * 60 * 60, validate=validate.Range(min=0))
SECURE_HSTS_SECONDS = HSTS_SECONDS if PRODUCTION else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = PRODUCTION and env.bool("HSTS_SUBDOMAINS", True)
SECURE_HSTS_PRELOAD = PRODUCTION and env.bool("HSTS_PRELOAD", True)
BEHIND_TLS_PROXY = env.bool("BEHIND_TLS_PROXY", False)
if BEHIND_TLS_PROXY:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
# How many entries at the end of X-Forwarded-For are our own proxies' (clinic.requests).
ALLAUTH_TRUSTED_PROXY_COUNT = int(BEHIND_TLS_PROXY)
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],
        "font-src": [SELF],
        "connect-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
        "manifest-src": [SELF],
    }
}

# --- Files, language, time -----------------------------------------------------------------
STATIC_URL = "/static/"
STATICFILES_DIRS = [BASE_DIR / "static"]
STATIC_ROOT = Path(env.str("STATIC_ROOT", str(BASE_DIR / ".static")))
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {
        "BACKEND": (
            "clinic.staticfiles.HashedModules"
            if PRODUCTION
            else "django.contrib.staticfiles.storage.StaticFilesStorage"
        )
    },
}
WHITENOISE_USE_FINDERS = not PRODUCTION
WHITENOISE_AUTOREFRESH = False
LANGUAGE_CODE = "en-us"
TIME_ZONE = env.str("TIME_ZONE", "UTC")
USE_I18N = True
USE_TZ = True
# A visit page has hundreds of controls: Jinja2 draws each in a fraction of the time.
FORM_RENDERER = "django.forms.renderers.Jinja2"

# --- Logs: paths without query strings, never request bodies or record contents ------------
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {
        "bare": {
            "()": "clinic.logs.BareFormatter",
            "format": "%(asctime)s %(levelname)s %(name)s %(message)s",
        }
    },
    "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "bare"}},
    # Django's own handler would send failures, with all that was posted, by e-mail.
    "loggers": {"django": {"handlers": [], "level": "WARNING"}},
    "root": {"handlers": ["stderr"], "level": "WARNING"},
}
