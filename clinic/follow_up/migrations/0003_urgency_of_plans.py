"""Each next visit learns the urgency of the plan that asked for it, as the plan says it."""

from django.apps.registry import Apps
from django.db import migrations
from django.db.backends.base.schema import BaseDatabaseSchemaEditor


def fill(apps: Apps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    """One statement: a plan without the word leaves it empty."""
    schema_editor.execute(
        """
        UPDATE follow_up_followup f SET urgency = p.plan ->> 'urgency'
        FROM plans_plansnapshot p
        WHERE p.assessment_id = f.set_by_id AND p.plan ->> 'urgency' IS NOT NULL
        """
    )


class Migration(migrations.Migration):
    dependencies = [
        ("follow_up", "0002_time_and_urgency"),
        ("plans", "0001_initial"),
    ]

    operations = [migrations.RunPython(fill, migrations.RunPython.noop)]
