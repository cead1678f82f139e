"""What every test gets: fast passwords, static files without their build, and one named cast."""

import gc
import logging
import os

import pytest
from django.apps import apps
from django.conf import settings as site
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
from django.contrib.sessions.backends.db import SessionStore
from django.db.models.signals import post_migrate
from django.test import Client, override_settings
from hypothesis import HealthCheck, settings

from plots.models import User
from tests.cast import Cast, make_cast
from tests.concurrency import shared_database

# How fast examples are found says how busy the machine is, and nothing of the code. New ones are tried
# at a desk; a change is taken in, or not, by the same ones each time.
settings.register_profile(
    "any machine",
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
    derandomize=bool(os.environ.get("CI")),
)
settings.load_profile("any machine")


# Looking for rubbish through all that is loaded, and stays, took a sixth of the time.
gc.set_threshold(100_000, 20, 100)


def pytest_collection_finish() -> None:
    gc.collect()
    gc.freeze()


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish() -> None:
    """Looks for rubbish once; pytest would go through all that is loaded ten times more."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True, scope="session")
def quick_settings():
    """No slow hashing, and static files by their plain names, looked for only when one is asked for."""
    storages = {
        "default": {"BACKEND": "django.core.files.storage.InMemoryStorage"},
        "staticfiles": {"BACKEND": "tests.static_names.PlainNames"},
    }
    with override_settings(
        PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"],
        STORAGES=storages,
        WHITENOISE_AUTOREFRESH=True,  # else every client of a test begins by reading all of them
    ):
        yield


@pytest.fixture(autouse=True, scope="session")
def quiet_refusals():
    """Refusals are asked for by the thousand here; writing each to the log takes longer than some answers."""
    logging.getLogger("django.request").setLevel(logging.ERROR)


@pytest.fixture(scope="session")
def django_db_modify_db_settings(django_db_modify_db_settings_parallel_suffix):
    """Databases of tests begin without the crop catalogue, which `migrate` brings everywhere else."""
    post_migrate.disconnect(sender=apps.get_app_config("crops"), dispatch_uid="crops.catalogue")


@pytest.fixture
def cast(db) -> Cast:
    return make_cast()


def session_of(user: User) -> str:
    """The key of a session, written as it stands after signing in: thousands of tests begin with one."""
    session = SessionStore()
    session[SESSION_KEY] = str(user.pk)
    session[BACKEND_SESSION_KEY] = "django.contrib.auth.backends.ModelBackend"
    session[HASH_SESSION_KEY] = user.get_session_auth_hash()
    session.create()
    return session.session_key


@pytest.fixture
def as_user(db):
    """A browser already signed in as the given person; `None` is nobody."""

    def signed_in(user: User | None) -> Client:
        client = Client()
        if user is not None:
            client.cookies[site.SESSION_COOKIE_NAME] = session_of(user)
        return client

    return signed_in


@pytest.fixture
def many_connections(transactional_db, tmp_path):
    """A database that threads reach through connections of their own; see `tests.concurrency.at_once`."""
    with shared_database(tmp_path):
        yield
