"""What tests of several parts share."""

import gc
import os
from collections.abc import Iterator
from typing import Any

import pytest
from django.core.management.commands import flush
from django.db import connection
from django.db.backends.postgresql.operations import DatabaseOperations
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser, sync_playwright
from psycopg import sql
from pytest_django.plugin import DjangoDbBlocker

from clinic.bootstrap.system import browser as chromium
from clinic.database import rights
from tests import kept_tables
from tests.chromium_arguments import CHROMIUM_ARGUMENTS

# No test asserts a time: a busy machine is no fault of the code. Always the same examples, so that
# a failure is the change's and not the day's.
settings.register_profile(
    "suite", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("suite")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """How the tests are shared out where several processes run them."""
    # Only there: without xdist a run has no use for it.
    from tests.two_ends import scheduler

    return scheduler(config, log)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int:
    """How many processes ``-n auto`` means."""
    from tests.two_ends import processes

    return processes()


def pytest_collection_finish() -> None:
    """Everything loaded so far stays to the end: looking through it for garbage again and again
    takes an eighth of the run."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 100)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A headless Chromium, started once; give each test a context of its own."""
    # Playwright keeps an event loop running in this thread, which Django takes for async code.
    os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(
            executable_path=chromium(), args=list(CHROMIUM_ARGUMENTS)
        )
        yield started
        started.close()
    del os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"]


def _emptied(_operations: Any, _style: Any, tables: Any, **_options: Any) -> list[str]:
    """How tables are emptied after a test that committed: few rows are deleted far sooner than
    every table is made again. As a replica, so that no trigger or reference is in the way."""
    written = sorted(set(tables) - rights.READ_ONLY)
    deleted = [f'DELETE FROM "{table}"' for table in written]  # noqa: S608 - our own tables
    # All at once, as TRUNCATE would: a server's last answer is waited for, not met half-way.
    names = ", ".join(f'"{table}"' for table in written)
    lock = f"LOCK TABLE {names} IN ACCESS EXCLUSIVE MODE"
    return [lock, "SET LOCAL session_replication_role = replica", *deleted]


@pytest.fixture(scope="session")
def django_db_modify_db_settings(
    django_db_modify_db_settings_parallel_suffix: None,
) -> Iterator[None]:
    """The tests' database begins with the tables kept from an earlier run."""
    with kept_tables.template(connection.settings_dict):
        yield


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[None]:
    """The tests' database, let go by everyone before it is dropped: a server's last thread or a
    cleaning worker of PostgreSQL would keep it."""
    kept_tables.keep(connection.settings_dict)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(DatabaseOperations, "sql_flush", _emptied)
        # What migrations alone make is left where it is, and need not be made again.
        patch.setattr(flush, "emit_post_migrate_signal", lambda *_: None)
        yield
    with django_db_blocker.unblock(), connection.cursor() as cursor:
        cursor.execute(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity "
            "WHERE datname = current_database() AND pid <> pg_backend_pid()"
        )


@pytest.fixture(scope="session")
def application_group(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[str]:
    """The group role of the tests' database, with its rights; a server keeps roles of its own, so
    it is taken away again."""
    group = rights.group_of(str(connection.settings_dict["NAME"]))
    named = sql.Identifier(group)
    with django_db_blocker.unblock(), connection.cursor() as cursor:
        cursor.execute(sql.SQL("CREATE ROLE {} NOLOGIN").format(named))
        rights.grant(cursor)
    yield group
    with django_db_blocker.unblock(), connection.cursor() as cursor:
        cursor.execute(sql.SQL("DROP OWNED BY {}").format(named))
        cursor.execute(sql.SQL("DROP ROLE {}").format(named))


@pytest.fixture
def application_role(application_group: str, db: None) -> Iterator[str]:
    """The test goes on under the role that production works under."""
    with connection.cursor() as cursor:
        cursor.execute(sql.SQL("SET LOCAL ROLE {}").format(sql.Identifier(application_group)))
    yield application_group
    with connection.cursor() as cursor:
        # What is checked at commit is checked as the owner of the tables.
        cursor.execute("RESET ROLE")
