"""A chain over the audit trail: each row gets a number and a hash over the row before it.

The tables' owner writes it, at commit, through a trigger that nobody calls: two people who chart at
the same time wait for each other only there. What a hash is made of is said in clinic.audit.chain.
"""

import django.db.models.deletion
import pgtrigger.compiler
import pgtrigger.migrations
from django.db import migrations, models

# A text in its length in bytes and itself; "-" is no value, so that no two rows read alike.
PART = """
CREATE FUNCTION public.audit_part(value text) RETURNS text
LANGUAGE sql IMMUTABLE SET search_path = pg_catalog, pg_temp
AS $$
    SELECT CASE WHEN value IS NULL THEN '-'
        ELSE octet_length(convert_to(value, 'UTF8')) || ':' || value || ',' END
$$;
"""

ADD_LINK = """
CREATE FUNCTION public.audit_add_link(entry public.audit_accesslog) RETURNS void
LANGUAGE plpgsql SET search_path = pg_catalog, pg_temp
AS $$
DECLARE
    before public.audit_accesslink;
    place bigint;
    said text;
BEGIN
    SELECT * INTO before FROM public.audit_accesslink ORDER BY number DESC LIMIT 1;
    place := coalesce(before.number, 0) + 1;
    said := public.audit_part(place::text)
        || public.audit_part(entry.id::text)
        || public.audit_part(to_char(entry.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"'))
        || public.audit_part(entry.actor_id::text)
        || public.audit_part(entry.actor_words)
        || public.audit_part(entry.action)
        || public.audit_part(entry.subject_kind)
        || public.audit_part(entry.subject_uuid::text)
        || public.audit_part(entry.patient_uuid::text)
        || public.audit_part(entry.remote_address::text)
        || public.audit_part(entry.detail);
    INSERT INTO public.audit_accesslink (number, entry_id, hash) VALUES (place, entry.id, encode(
        sha256(decode(coalesce(before.hash, repeat('0', 64)), 'hex') || convert_to(said, 'UTF8')),
        'hex'
    ));
END
$$;
"""

# The lock is held from here to the end of the commit, and the next one waits. Each statement sees
# what was committed before it began, so the last link is asked for after the lock is had.
# It works with its owner's rights; on a table of somebody's own it does nothing but refuse.
AT_COMMIT = """
CREATE FUNCTION public.audit_link_at_commit() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp
AS $$
BEGIN
    IF TG_RELID <> 'public.audit_accesslog'::regclass THEN
        RAISE EXCEPTION 'Only the audit trail is linked.' USING ERRCODE = 'insufficient_privilege';
    END IF;
    PERFORM pg_advisory_xact_lock(hashtextextended('audit chain', 0));
    PERFORM public.audit_add_link(NEW);
    RETURN NULL;
END
$$;
REVOKE ALL ON FUNCTION public.audit_link_at_commit() FROM PUBLIC;
CREATE CONSTRAINT TRIGGER audit_link_at_commit AFTER INSERT ON public.audit_accesslog
    DEFERRABLE INITIALLY DEFERRED
    FOR EACH ROW EXECUTE FUNCTION public.audit_link_at_commit();
"""

# The trigger's making keeps writers out until this is committed.
ROWS_FROM_BEFORE = """
DO $$
DECLARE entry public.audit_accesslog;
BEGIN
    FOR entry IN SELECT * FROM public.audit_accesslog ORDER BY id LOOP
        PERFORM public.audit_add_link(entry);
    END LOOP;
END
$$;
"""

TAKEN_BACK = """
DROP TRIGGER audit_link_at_commit ON public.audit_accesslog;
DROP FUNCTION public.audit_link_at_commit();
DROP FUNCTION public.audit_add_link(public.audit_accesslog);
DROP FUNCTION public.audit_part(text);
"""


class Migration(migrations.Migration):
    dependencies = [
        ("audit", "0001_initial"),
    ]

    operations = [
        migrations.CreateModel(
            name="AccessLink",
            fields=[
                ("number", models.BigIntegerField(primary_key=True, serialize=False)),
                ("hash", models.CharField(max_length=64)),
                (
                    "entry",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="link",
                        to="audit.accesslog",
                    ),
                ),
            ],
            options={
                "ordering": ["number"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("number__gte", 1)), name="chain_from_one"
                    )
                ],
            },
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="accesslink",
            trigger=pgtrigger.compiler.Trigger(
                name="append_only",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    func="RAISE EXCEPTION 'pgtrigger: Cannot update or delete rows from % table', TG_TABLE_NAME;",
                    hash="f31a7f3d8e0c2d3c162e1f7d4ef33a6ee5bcde9f",
                    operation="UPDATE OR DELETE",
                    pgid="pgtrigger_append_only_d37ca",
                    table="audit_accesslink",
                    when="BEFORE",
                ),
            ),
        ),
        migrations.RunSQL(PART + ADD_LINK + AT_COMMIT + ROWS_FROM_BEFORE, TAKEN_BACK),
    ]
