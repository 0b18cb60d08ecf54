"""Triggers that no one can switch off for a session.

The packages that write our triggers let any session name those it would pass over, in a setting
that the trigger's function asks for. Here the answer is always no. What only an owner may do to a
table (``ALTER TABLE … DISABLE TRIGGER``) the application's role cannot.
"""

from typing import Any

#: As pgtrigger declares it; each trigger that is installed declares it again.
_NEVER = """
CREATE OR REPLACE FUNCTION "public"._pgtrigger_should_ignore(trigger_name NAME)
RETURNS BOOLEAN AS $$ BEGIN RETURN FALSE; END; $$ LANGUAGE plpgsql;
"""

#: Writes who acted beside each row of history. It works with its owner's rights, so that the
#: application's role needs none to change what is written there.
_CONTEXT = """
ALTER FUNCTION "public"._pgh_attach_context() SECURITY DEFINER SET search_path = public, pg_temp;
"""

#: Links each row of the audit trail with its owner's rights. No one else makes a trigger of it; a
#: copy of the database may have lost that.
_LINK = """
DO $$ BEGIN
    IF to_regprocedure('public.audit_link_at_commit()') IS NOT NULL THEN
        REVOKE ALL ON FUNCTION public.audit_link_at_commit() FROM PUBLIC;
    END IF;
END $$;
"""


def take_out(cursor: Any) -> None:
    """Take both switches out of the database. Asked of the tables' owner."""
    cursor.execute(_NEVER)
    cursor.execute(_CONTEXT)
    cursor.execute(_LINK)
