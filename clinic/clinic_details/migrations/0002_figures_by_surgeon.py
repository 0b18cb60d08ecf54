"""Whether the measures may be told apart by surgeon."""

import pgtrigger.compiler
import pgtrigger.migrations
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("clinic_details", "0001_tables"),
    ]

    operations = [
        pgtrigger.migrations.RemoveTrigger(
            model_name="clinicdetails",
            name="insert_insert",
        ),
        pgtrigger.migrations.RemoveTrigger(
            model_name="clinicdetails",
            name="update_update",
        ),
        pgtrigger.migrations.RemoveTrigger(
            model_name="clinicdetails",
            name="delete_delete",
        ),
        migrations.AddField(
            model_name="clinicdetails",
            name="figures_by_surgeon",
            field=models.BooleanField(default=False, verbose_name="figures by surgeon"),
        ),
        migrations.AddField(
            model_name="clinicdetailsevent",
            name="figures_by_surgeon",
            field=models.BooleanField(default=False, verbose_name="figures by surgeon"),
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="clinicdetails",
            trigger=pgtrigger.compiler.Trigger(
                name="insert_insert",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    func='INSERT INTO "clinic_details_clinicdetailsevent" ("closed_weekdays", "figures_by_surgeon", "hours", "hours_translated", "id", "name", "paper_size", "pgh_context_id", "pgh_created_at", "pgh_label", "pgh_obj_id", "phone") VALUES (NEW."closed_weekdays", NEW."figures_by_surgeon", NEW."hours", NEW."hours_translated", NEW."id", NEW."name", NEW."paper_size", _pgh_attach_context(), NOW(), \'insert\', NEW."id", NEW."phone"); RETURN NULL;',
                    hash="f158252ae6fbcaaa6dcba6cf7614a6f8e3ff892a",
                    operation="INSERT",
                    pgid="pgtrigger_insert_insert_f809c",
                    table="clinic_details_clinicdetails",
                    when="AFTER",
                ),
            ),
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="clinicdetails",
            trigger=pgtrigger.compiler.Trigger(
                name="update_update",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    condition="WHEN (OLD.* IS DISTINCT FROM NEW.*)",
                    func='INSERT INTO "clinic_details_clinicdetailsevent" ("closed_weekdays", "figures_by_surgeon", "hours", "hours_translated", "id", "name", "paper_size", "pgh_context_id", "pgh_created_at", "pgh_label", "pgh_obj_id", "phone") VALUES (NEW."closed_weekdays", NEW."figures_by_surgeon", NEW."hours", NEW."hours_translated", NEW."id", NEW."name", NEW."paper_size", _pgh_attach_context(), NOW(), \'update\', NEW."id", NEW."phone"); RETURN NULL;',
                    hash="a9baf0aeeb1f2e3123d4d99f2da9423e2c26feb6",
                    operation="UPDATE",
                    pgid="pgtrigger_update_update_8a659",
                    table="clinic_details_clinicdetails",
                    when="AFTER",
                ),
            ),
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="clinicdetails",
            trigger=pgtrigger.compiler.Trigger(
                name="delete_delete",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    func='INSERT INTO "clinic_details_clinicdetailsevent" ("closed_weekdays", "figures_by_surgeon", "hours", "hours_translated", "id", "name", "paper_size", "pgh_context_id", "pgh_created_at", "pgh_label", "pgh_obj_id", "phone") VALUES (OLD."closed_weekdays", OLD."figures_by_surgeon", OLD."hours", OLD."hours_translated", OLD."id", OLD."name", OLD."paper_size", _pgh_attach_context(), NOW(), \'delete\', OLD."id", OLD."phone"); RETURN NULL;',
                    hash="639eae5cc43f80cbc7a98f5ce82adfb44e7f7b7c",
                    operation="DELETE",
                    pgid="pgtrigger_delete_delete_37615",
                    table="clinic_details_clinicdetails",
                    when="AFTER",
                ),
            ),
        ),
    ]
