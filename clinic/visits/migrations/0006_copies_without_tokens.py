"""A kept copy holds entries alone: what older copies hold of the session that sent them goes."""

from django.db import migrations

HOUSEKEEPING = "{csrfmiddlewaretoken,version,press,page,turn}"


class Migration(migrations.Migration):
    dependencies = [("visits", "0005_one_open_draft")]

    operations = [
        migrations.RunSQL(
            f"UPDATE visits_conflictcopy SET data = data - '{HOUSEKEEPING}'::text[]",  # noqa: S608
            migrations.RunSQL.noop,
        ),
    ]
