"""Project-wide: the installation's settings, from the environment, each with a working default."""

import os
import re
from pathlib import Path

from plots.environment import Environment, WrongSetting
from plots.secret_file import kept_secret

BASE_DIR = Path(__file__).resolve().parent.parent
env = Environment(os.environ)

DATA_DIR = env.folder("DATA_DIR", BASE_DIR / ".data")
DEBUG = env.switch("DEBUG", False)
SITE = env.site("SITE_URL", "http://127.0.0.1:8000")
SITE_URL = SITE.url
TRUSTED_PROXIES = env.whole("TRUSTED_PROXIES", 1 if SITE.https else 0)
SECRET_KEY = env.secret("SECRET_KEY") or kept_secret(DATA_DIR / "secret_key")
if len(SECRET_KEY) < 50:
    raise WrongSetting("SECRET_KEY", "must be at least 50 characters long; leave it out to have one made.")

# --- The address of the site, and what follows from it ---
ALLOWED_HOSTS = SITE.allowed_hosts
CSRF_TRUSTED_ORIGINS = [SITE.origin]
FORCE_SCRIPT_NAME = SITE.path or None
SECURE_SSL_REDIRECT = SITE.https
SECURE_SSL_HOST = SITE.netloc
SECURE_REDIRECT_EXEMPT = [f"^{re.escape(f'{SITE.path}/health/'.lstrip('/'))}"]
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if TRUSTED_PROXIES else None
HSTS_DAYS = env.whole("HSTS_DAYS", 30)
SECURE_HSTS_SECONDS = 86400 * HSTS_DAYS if SITE.https else 0
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = SITE.https
SESSION_COOKIE_PATH = CSRF_COOKIE_PATH = SITE.path or "/"
_PREFIX = "__Host-" if SITE.https and not SITE.path else ""
SESSION_COOKIE_NAME = f"{_PREFIX}session"
CSRF_COOKIE_NAME = f"{_PREFIX}csrf"
SESSION_COOKIE_AGE = 270 * 86400  # a phone stays signed in for a season
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
# Named as in Django 6, so that the upgrade only deletes our middleware.
SECURE_CSP = {
    "default-src": ["'self'"],
    "script-src": ["'self'"],
    "style-src": ["'self'"],
    "img-src": ["'self'", "data:"],
    "object-src": ["'none'"],
    "base-uri": ["'none'"],
    "form-action": ["'self'"],
    "frame-ancestors": ["'none'"],
}
# W005 and W021 ask to bind every other name of the domain to https, which is not ours to decide.
SILENCED_SYSTEM_CHECKS = ["security.W005", "security.W021"]
if not SITE.https:
    # Over plain http on a garden's own network these would lock everybody out; plots.W001 says so instead.
    SILENCED_SYSTEM_CHECKS += ["security.W004", "security.W008", "security.W012", "security.W016"]

# --- Applications ---
INSTALLED_APPS = [
    "plots",
    "crops",
    "schedules",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django.forms",
    "django_htmx",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "plots.middleware.ContentSecurityPolicy",
    "plots.middleware.BodyLimited",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "plots.middleware.TextsCompressed",
    "plots.middleware.PagesPrivate",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "plots.middleware.Language",
    "plots.middleware.SignInRequired",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]
ROOT_URLCONF = "plots.urls"
WSGI_APPLICATION = "plots.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ]
        },
    }
]
FORM_RENDERER = "plots.forms.PageRenderer"
CSRF_FAILURE_VIEW = "plots.views.errors.csrf_failure"

# --- Database ---
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
_DATABASE = env.database("DATABASE_URL", DATA_DIR / "trugbook.sqlite3")
DATABASES = {
    "default": {
        "ENGINE": f"django.db.backends.{'sqlite3' if _DATABASE.engine == 'sqlite' else 'postgresql'}",
        "NAME": _DATABASE.name,
        "USER": _DATABASE.user,
        "PASSWORD": _DATABASE.password,
        "HOST": _DATABASE.host,
        "PORT": _DATABASE.port,
        "CONN_MAX_AGE": 60,  # kept connections triple what SQLite serves
        "CONN_HEALTH_CHECKS": _DATABASE.engine == "postgresql",
        "OPTIONS": dict(_DATABASE.options),
    }
}
if _DATABASE.engine == "sqlite":
    # Deferred transactions answer "database is locked" under load; FULL outlives a power cut.
    DATABASES["default"]["OPTIONS"] = {
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL",
    }

# --- People ---
AUTH_USER_MODEL = "plots.User"
LOGIN_URL = "plots:sign_in"
LOGIN_REDIRECT_URL = "plots:home"
PASSWORD_HASHERS = ["django.contrib.auth.hashers.ScryptPasswordHasher"]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator",
        "OPTIONS": {"user_attributes": ["name", "sign_in_name", "email"]},
    },
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 12},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]

# --- Email: none without EMAIL_URL; then pages show what to copy, print or call instead ---
_MAIL = env.mail_server("EMAIL_URL")
EMAIL_FROM = DEFAULT_FROM_EMAIL = SERVER_EMAIL = _MAIL.sender
EMAIL_HOST, EMAIL_PORT = _MAIL.host, _MAIL.port
EMAIL_HOST_USER, EMAIL_HOST_PASSWORD = _MAIL.user, _MAIL.password
EMAIL_USE_SSL, EMAIL_USE_TLS = _MAIL.tls, _MAIL.starttls
EMAIL_TIMEOUT = 10

# --- Languages and dates ---
LANGUAGES = [("en", "English")]
LANGUAGE_CODE = env.one_of("DEFAULT_LANGUAGE", "en", tuple(code for code, _name in LANGUAGES))
LOCALE_PATHS = [BASE_DIR / "plots" / "locale"]
USE_I18N = USE_TZ = True
TIME_ZONE = "UTC"

# --- Files ---
FIXTURE_DIRS = [BASE_DIR / "fixtures"]
STATICFILES_DIRS = [BASE_DIR / "static"]
STATIC_URL = f"{SITE.path}/static/"  # whole: a server asks for it before it knows of FORCE_SCRIPT_NAME
STATIC_ROOT = DATA_DIR / "static"
STATIC_ROOT.mkdir(exist_ok=True)
WHITENOISE_USE_FINDERS = True  # serves what has not been gathered yet
WHITENOISE_ALLOW_ALL_ORIGINS = False  # no other site draws with them; one header less for each
STORAGES = {
    # Photos, private: no web server knows this folder, views hand them out to those who may see the plot.
    "default": {
        "BACKEND": "django.core.files.storage.FileSystemStorage",
        "OPTIONS": {
            "location": env.folder("PHOTOS_DIR", DATA_DIR / "photos"),
            "file_permissions_mode": 0o600,
            "directory_permissions_mode": 0o700,
        },
    },
    "staticfiles": {"BACKEND": "plots.management.gathered.GatheredFiles"},
}

# --- Log: everything worth knowing goes to the console, errors with their traceback ---
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    "loggers": {
        "django": {
            "handlers": ["console"],
            "level": env.one_of("LOG_LEVEL", "INFO", ("DEBUG", "INFO", "WARNING", "ERROR")),
            "propagate": False,
        }
    },
}
