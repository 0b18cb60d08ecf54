"""From ``DATABASE_URL`` to what Django connects with."""

from typing import Any

import dj_database_url
from django.core.exceptions import ImproperlyConfigured

from clinic.bootstrap.hosts import without_servers

#: Seconds for each server until the next is tried, or the page says that there is none (design
#: value).
CONNECT_WITHIN = 3


def database(url: str, *, behind_pgbouncer: bool = False) -> dict[str, Any]:
    """Settings of the one database. Of several servers the first that takes writes is used, so that
    a standby that was not promoted never serves a page.

    ``behind_pgbouncer``: in transaction mode the next statement may reach another connection, so
    nothing is left there for it: no cursor outside a transaction, no prepared statement.

    Raises ``ImproperlyConfigured``, without repeating the address.
    """
    try:
        rest, servers = without_servers(url)
        made: dict[str, Any] = dict(
            dj_database_url.parse(
                rest,
                conn_max_age=60,
                # A connection that the server has dropped is made again.
                conn_health_checks=True,
                disable_server_side_cursors=behind_pgbouncer,
            )
        )
    except ValueError:
        raise ImproperlyConfigured("DATABASE_URL cannot be read.") from None
    options = made.setdefault("OPTIONS", {})
    if servers:
        made["HOST"] = ",".join(server.host for server in servers)
        made["PORT"] = ",".join(str(server.port) for server in servers)
    if "," in str(options.get("host", made["HOST"])):
        options.setdefault("target_session_attrs", "read-write")
    options.setdefault("connect_timeout", CONNECT_WITHIN)
    made["ATOMIC_REQUESTS"] = False
    if behind_pgbouncer:
        options["prepare_threshold"] = None
    return made
