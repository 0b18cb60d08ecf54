"""`python3 manage.py demo [ADDR:PORT]`: the invented clinic, served on this machine."""

import importlib
import os
import signal
from collections.abc import Callable
from types import FrameType
from typing import Any

from django.conf import settings
from django.contrib.auth import get_user_model
from django.core.management import call_command, get_commands
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.core.wsgi import get_wsgi_application
from django.db import connection, connections
from gunicorn.app.base import BaseApplication

from clinic.bad_input import utf8_only
from clinic.bootstrap.address import DEFAULT, Address, parse_address, require_free
from clinic.bootstrap.messages import say
from clinic.bootstrap.start import EMBEDDED
from clinic.database.least_rights import refuse_owner
from clinic.database.rights import make_role
from clinic.management.older_tables import empty_database, made_by_older_version

#: Serves the demo; the embedded server's own role owns the tables.
ROLE = "clinic_server"
LOADER = "load_invented_clinic"
ACCOUNTS = "fixtures.invented_clinic.accounts"

Account = tuple[str, str, str]  # user name, password, role in words


class Command(BaseCommand):
    """Bring the tables up to date, load the invented clinic, serve until stopped."""

    help = "Serves the invented clinic on this machine; stop it with Ctrl-C."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the address to serve on."""
        parser.add_argument("address", nargs="?", default=DEFAULT, help=f"default: {DEFAULT}")

    def handle(self, *args: Any, address: str, **options: Any) -> None:
        """Prepare the database and serve."""
        if settings.MODE != "demo":
            raise CommandError("Start the demo as: python3 manage.py demo")
        place = parse_address(address)
        require_free(place)
        refuse_foreign_accounts()
        forget_older_demo()
        say("Bringing the tables up to date …")
        call_command("migrate", verbosity=0, interactive=False)
        if LOADER in get_commands():
            say("Loading the invented clinic; the first time takes a little …")
            call_command(LOADER)
        settings.STATIC_ROOT.mkdir(exist_ok=True)  # whitenoise warns about a missing folder
        serve_with_least_rights()
        connections.close_all()  # the serving processes open their own
        DemoServer(place, lambda: say(welcome(place))).run()


def serve_with_least_rights() -> None:
    """From here on as in production: under a role that owns nothing."""
    if not os.environ.get(EMBEDDED):
        return  # a database that was named has a role of its own
    make_role(ROLE, None)  # the embedded server is reached over a socket closed to others
    connections.close_all()
    connection.settings_dict["USER"] = ROLE
    refuse_owner()


def demo_accounts() -> tuple[Account, ...]:
    """The invented clinic's accounts; none if it is not part of this copy."""
    try:
        accounts: tuple[Account, ...] = importlib.import_module(ACCOUNTS).ACCOUNTS
    except ModuleNotFoundError:
        return ()
    return accounts


def refuse_foreign_accounts() -> None:
    """Keep invented people out of a database in which anyone else works."""
    if os.environ.get(EMBEDDED):
        return
    users = get_user_model()
    if users._meta.db_table not in connection.introspection.table_names():
        return
    names = [name for name, _, _ in demo_accounts()]
    if users.objects.exclude(username__in=names).exists():
        raise CommandError(
            "The database named in DATABASE_URL holds accounts that are not the demo's, so the "
            "invented clinic was not loaded into it; name an empty database, or none."
        )


def forget_older_demo() -> None:
    """Empty the demo's own database where an older version made it; nothing in it is real."""
    if os.environ.get(EMBEDDED) and made_by_older_version():
        say("This demo was made by an older version: the invented clinic is created again.")
        empty_database()


def welcome(place: Address) -> str:
    """What to open and whom to sign in as."""
    lines = ["", f"Open http://{place.shown}/ and sign in; everyone in it is invented.", ""]
    lines += [f"  {name:<10}{password:<26}{role}" for name, password, role in demo_accounts()]
    return "\n".join([*lines, "", "Ctrl-C stops it.", ""])


class DemoServer(BaseApplication):
    """The production server, gunicorn, at a size for one desk."""

    def __init__(self, place: Address, ready: Callable[[], object]) -> None:
        self.place = place
        self.ready = ready
        super().__init__()

    def load_config(self) -> None:
        """Set what differs from gunicorn's own defaults."""
        chosen = {
            "bind": [self.place.shown],
            "workers": 2,
            "worker_class": "gthread",
            "threads": 4,
            "timeout": 120,  # seconds; a long letter on a slow machine
            "graceful_timeout": 3,  # seconds; stopping should not be waited for
            "loglevel": "warning",
            "control_socket_disable": True,
            "when_ready": self._when_ready,
        }
        for name, value in chosen.items():
            self.cfg.set(name, value)

    def load(self) -> Callable[..., object]:
        """The application to serve."""
        return utf8_only(get_wsgi_application())

    def _when_ready(self, arbiter: object) -> None:
        # A closed terminal ends the demo; gunicorn itself would reload and stay behind.
        signal.signal(signal.SIGHUP, _terminate)
        self.ready()


def _terminate(number: int, frame: FrameType | None) -> None:
    os.kill(os.getpid(), signal.SIGTERM)
