"""The register of complications."""

import uuid
from decimal import Decimal

import django.core.validators
import django.db.models.deletion
import pgtrigger.compiler
import pgtrigger.migrations
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        ("patients", "0004_words"),
        ("pghistory", "0007_auto_20250421_0444"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="Complication",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("uuid", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("necrosis", "Poor blood flow or necrosis"),
                            ("stenosis", "Narrowing (stenosis)"),
                            ("bleeding", "Bleeding"),
                            ("obstruction", "Obstruction or blockage"),
                            ("dehydration", "Dehydration or high output"),
                            ("infection", "Infection or abscess"),
                            ("fistula", "Fistula beside the stoma"),
                            ("evisceration", "Bowel beside the stoma"),
                            ("urine", "Urinary infection or kidney trouble"),
                            ("hernia", "Parastomal hernia, confirmed"),
                            ("retraction", "Retraction"),
                            ("prolapse", "Prolapse"),
                            ("separation", "Mucocutaneous separation"),
                            ("skin", "Skin damage"),
                        ],
                        max_length=20,
                        verbose_name="What happened",
                    ),
                ),
                (
                    "found_on",
                    models.CharField(
                        blank=True,
                        max_length=10,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^(19|20)\\d\\d(-(0[1-9]|1[0-2])(-(0[1-9]|[12]\\d|3[01]))?)?$",
                                "Give a year (2021), a month (2021-03) or a day (2021-03-14).",
                            )
                        ],
                        verbose_name="When it was found",
                    ),
                ),
                (
                    "grade",
                    models.CharField(
                        blank=True,
                        choices=[
                            (
                                "I",
                                "I: no drug beyond the basic ones and no procedure; a wound opened at the bedside",
                            ),
                            ("II", "II: other drugs, a blood transfusion, or all feeding by vein"),
                            ("IIIa", "IIIa: a procedure without general anaesthesia"),
                            ("IIIb", "IIIb: a procedure under general anaesthesia"),
                            ("IVa", "IVa: life in danger, one organ failed; dialysis counts here"),
                            ("IVb", "IVb: life in danger, several organs failed"),
                            ("V", "V: the patient died of it"),
                        ],
                        max_length=5,
                        verbose_name="Grade (Clavien and Dindo)",
                    ),
                ),
                (
                    "disability",
                    models.BooleanField(
                        blank=True, null=True, verbose_name="Disability when discharged"
                    ),
                ),
                (
                    "done",
                    models.CharField(blank=True, max_length=200, verbose_name="What was done"),
                ),
                (
                    "defect_cm",
                    models.DecimalField(
                        blank=True,
                        decimal_places=1,
                        max_digits=4,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.1")),
                            django.core.validators.MaxValueValidator(Decimal("40")),
                        ],
                        verbose_name="Largest diameter of the gap in the muscle",
                    ),
                ),
                (
                    "measured_by",
                    models.CharField(
                        blank=True,
                        choices=[("ct", "CT"), ("operation", "At operation")],
                        max_length=10,
                        verbose_name="Measured by",
                    ),
                ),
                (
                    "incisional",
                    models.BooleanField(
                        blank=True, null=True, verbose_name="Incisional hernia too"
                    ),
                ),
                (
                    "recurrent",
                    models.BooleanField(
                        blank=True, null=True, verbose_name="Came back after a repair"
                    ),
                ),
                ("recorded_at", models.DateTimeField(auto_now_add=True)),
                (
                    "recorded_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "stoma",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="complications",
                        to="patients.stoma",
                    ),
                ),
            ],
            options={
                "ordering": ["recorded_at", "id"],
            },
        ),
        migrations.CreateModel(
            name="ComplicationEvent",
            fields=[
                ("pgh_id", models.AutoField(primary_key=True, serialize=False)),
                ("pgh_created_at", models.DateTimeField(auto_now_add=True)),
                ("pgh_label", models.TextField(help_text="The event label.")),
                ("id", models.BigIntegerField()),
                ("uuid", models.UUIDField(default=uuid.uuid4, editable=False)),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("necrosis", "Poor blood flow or necrosis"),
                            ("stenosis", "Narrowing (stenosis)"),
                            ("bleeding", "Bleeding"),
                            ("obstruction", "Obstruction or blockage"),
                            ("dehydration", "Dehydration or high output"),
                            ("infection", "Infection or abscess"),
                            ("fistula", "Fistula beside the stoma"),
                            ("evisceration", "Bowel beside the stoma"),
                            ("urine", "Urinary infection or kidney trouble"),
                            ("hernia", "Parastomal hernia, confirmed"),
                            ("retraction", "Retraction"),
                            ("prolapse", "Prolapse"),
                            ("separation", "Mucocutaneous separation"),
                            ("skin", "Skin damage"),
                        ],
                        max_length=20,
                        verbose_name="What happened",
                    ),
                ),
                (
                    "found_on",
                    models.CharField(
                        blank=True,
                        max_length=10,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^(19|20)\\d\\d(-(0[1-9]|1[0-2])(-(0[1-9]|[12]\\d|3[01]))?)?$",
                                "Give a year (2021), a month (2021-03) or a day (2021-03-14).",
                            )
                        ],
                        verbose_name="When it was found",
                    ),
                ),
                (
                    "grade",
                    models.CharField(
                        blank=True,
                        choices=[
                            (
                                "I",
                                "I: no drug beyond the basic ones and no procedure; a wound opened at the bedside",
                            ),
                            ("II", "II: other drugs, a blood transfusion, or all feeding by vein"),
                            ("IIIa", "IIIa: a procedure without general anaesthesia"),
                            ("IIIb", "IIIb: a procedure under general anaesthesia"),
                            ("IVa", "IVa: life in danger, one organ failed; dialysis counts here"),
                            ("IVb", "IVb: life in danger, several organs failed"),
                            ("V", "V: the patient died of it"),
                        ],
                        max_length=5,
                        verbose_name="Grade (Clavien and Dindo)",
                    ),
                ),
                (
                    "disability",
                    models.BooleanField(
                        blank=True, null=True, verbose_name="Disability when discharged"
                    ),
                ),
                (
                    "done",
                    models.CharField(blank=True, max_length=200, verbose_name="What was done"),
                ),
                (
                    "defect_cm",
                    models.DecimalField(
                        blank=True,
                        decimal_places=1,
                        max_digits=4,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.1")),
                            django.core.validators.MaxValueValidator(Decimal("40")),
                        ],
                        verbose_name="Largest diameter of the gap in the muscle",
                    ),
                ),
                (
                    "measured_by",
                    models.CharField(
                        blank=True,
                        choices=[("ct", "CT"), ("operation", "At operation")],
                        max_length=10,
                        verbose_name="Measured by",
                    ),
                ),
                (
                    "incisional",
                    models.BooleanField(
                        blank=True, null=True, verbose_name="Incisional hernia too"
                    ),
                ),
                (
                    "recurrent",
                    models.BooleanField(
                        blank=True, null=True, verbose_name="Came back after a repair"
                    ),
                ),
                ("recorded_at", models.DateTimeField(auto_now_add=True)),
                (
                    "pgh_context",
                    models.ForeignKey(
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="pghistory.context",
                    ),
                ),
                (
                    "pgh_obj",
                    models.ForeignKey(
                        db_constraint=False,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="events",
                        to="complications.complication",
                    ),
                ),
                (
                    "recorded_by",
                    models.ForeignKey(
                        db_constraint=False,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        related_query_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "stoma",
                    models.ForeignKey(
                        db_constraint=False,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        related_query_name="+",
                        to="patients.stoma",
                    ),
                ),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.AddConstraint(
            model_name="complication",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "kind__in",
                        [
                            "necrosis",
                            "stenosis",
                            "bleeding",
                            "obstruction",
                            "dehydration",
                            "infection",
                            "fistula",
                            "evisceration",
                            "urine",
                            "hernia",
                            "retraction",
                            "prolapse",
                            "separation",
                            "skin",
                        ],
                    ),
                    ("grade__in", ["I", "II", "IIIa", "IIIb", "IVa", "IVb", "V", ""]),
                    ("measured_by__in", ["ct", "operation", ""]),
                ),
                name="complication_words_are_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="complication",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("found_on", ""),
                    (
                        "found_on__regex",
                        "^(19|20)\\d\\d(-(0[1-9]|1[0-2])(-(0[1-9]|[12]\\d|3[01]))?)?$",
                    ),
                    _connector="OR",
                ),
                name="complication_found_on_is_a_date",
            ),
        ),
        migrations.AddConstraint(
            model_name="complication",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("kind", "hernia"),
                    models.Q(
                        ("defect_cm__isnull", True),
                        ("incisional__isnull", True),
                        ("recurrent__isnull", True),
                    ),
                    _connector="OR",
                ),
                name="complication_class_of_a_hernia",
            ),
        ),
        migrations.AddConstraint(
            model_name="complication",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("defect_cm__isnull", True), ("measured_by", "")),
                    models.Q(
                        ("defect_cm__isnull", False),
                        ("defect_cm__range", (Decimal("0.1"), Decimal("40"))),
                        models.Q(("measured_by", ""), _negated=True),
                    ),
                    _connector="OR",
                ),
                name="complication_defect_was_measured",
            ),
        ),
        migrations.AddConstraint(
            model_name="complication",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("disability__isnull", True),
                    models.Q(("grade__in", ["", "V"]), _negated=True),
                    _connector="OR",
                ),
                name="complication_disability_of_a_grade",
            ),
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="complication",
            trigger=pgtrigger.compiler.Trigger(
                name="complication_stays",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    condition='WHEN (OLD."stoma_id" IS DISTINCT FROM (NEW."stoma_id") OR OLD."uuid" IS DISTINCT FROM (NEW."uuid"))',
                    func="RAISE EXCEPTION 'pgtrigger: Cannot update rows from % table', TG_TABLE_NAME;",
                    hash="ef3f11d18406baed96e5cd8b7f56ace8e1d37394",
                    operation="UPDATE",
                    pgid="pgtrigger_complication_stays_8517a",
                    table="complications_complication",
                    when="BEFORE",
                ),
            ),
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="complication",
            trigger=pgtrigger.compiler.Trigger(
                name="complication_never_emptied",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    func="\n            IF current_setting('clinic.may_truncate', true) IS DISTINCT FROM 'on' THEN\n                RAISE EXCEPTION 'Records are never emptied.' USING ERRCODE = 'check_violation';\n            END IF;\n            RETURN NULL;\n        ",
                    hash="e99df850e983403d780e307bf0558e6d25607eb4",
                    level="STATEMENT",
                    operation="TRUNCATE",
                    pgid="pgtrigger_complication_never_emptied_1d07c",
                    table="complications_complication",
                    when="BEFORE",
                ),
            ),
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="complication",
            trigger=pgtrigger.compiler.Trigger(
                name="insert_insert",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    func='INSERT INTO "complications_complicationevent" ("defect_cm", "disability", "done", "found_on", "grade", "id", "incisional", "kind", "measured_by", "pgh_context_id", "pgh_created_at", "pgh_label", "pgh_obj_id", "recorded_at", "recorded_by_id", "recurrent", "stoma_id", "uuid") VALUES (NEW."defect_cm", NEW."disability", NEW."done", NEW."found_on", NEW."grade", NEW."id", NEW."incisional", NEW."kind", NEW."measured_by", _pgh_attach_context(), NOW(), \'insert\', NEW."id", NEW."recorded_at", NEW."recorded_by_id", NEW."recurrent", NEW."stoma_id", NEW."uuid"); RETURN NULL;',
                    hash="c6e82de61fa1e79b469ea97c44551279ee4bfe2a",
                    operation="INSERT",
                    pgid="pgtrigger_insert_insert_65e18",
                    table="complications_complication",
                    when="AFTER",
                ),
            ),
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="complication",
            trigger=pgtrigger.compiler.Trigger(
                name="update_update",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    condition="WHEN (OLD.* IS DISTINCT FROM NEW.*)",
                    func='INSERT INTO "complications_complicationevent" ("defect_cm", "disability", "done", "found_on", "grade", "id", "incisional", "kind", "measured_by", "pgh_context_id", "pgh_created_at", "pgh_label", "pgh_obj_id", "recorded_at", "recorded_by_id", "recurrent", "stoma_id", "uuid") VALUES (NEW."defect_cm", NEW."disability", NEW."done", NEW."found_on", NEW."grade", NEW."id", NEW."incisional", NEW."kind", NEW."measured_by", _pgh_attach_context(), NOW(), \'update\', NEW."id", NEW."recorded_at", NEW."recorded_by_id", NEW."recurrent", NEW."stoma_id", NEW."uuid"); RETURN NULL;',
                    hash="ff063fd7d5549b7c6818264149d9b3e8bb78985c",
                    operation="UPDATE",
                    pgid="pgtrigger_update_update_d241e",
                    table="complications_complication",
                    when="AFTER",
                ),
            ),
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="complication",
            trigger=pgtrigger.compiler.Trigger(
                name="delete_delete",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    func='INSERT INTO "complications_complicationevent" ("defect_cm", "disability", "done", "found_on", "grade", "id", "incisional", "kind", "measured_by", "pgh_context_id", "pgh_created_at", "pgh_label", "pgh_obj_id", "recorded_at", "recorded_by_id", "recurrent", "stoma_id", "uuid") VALUES (OLD."defect_cm", OLD."disability", OLD."done", OLD."found_on", OLD."grade", OLD."id", OLD."incisional", OLD."kind", OLD."measured_by", _pgh_attach_context(), NOW(), \'delete\', OLD."id", OLD."recorded_at", OLD."recorded_by_id", OLD."recurrent", OLD."stoma_id", OLD."uuid"); RETURN NULL;',
                    hash="4b39607871521918219cb57b4765aec4cae3c694",
                    operation="DELETE",
                    pgid="pgtrigger_delete_delete_bc4fb",
                    table="complications_complication",
                    when="AFTER",
                ),
            ),
        ),
        pgtrigger.migrations.AddTrigger(
            model_name="complicationevent",
            trigger=pgtrigger.compiler.Trigger(
                name="append_only",
                sql=pgtrigger.compiler.UpsertTriggerSql(
                    func="RAISE EXCEPTION 'pgtrigger: Cannot update or delete rows from % table', TG_TABLE_NAME;",
                    hash="9558804e0525835f45ccb44bb880242448b4f58a",
                    operation="UPDATE OR DELETE",
                    pgid="pgtrigger_append_only_2c664",
                    table="complications_complicationevent",
                    when="BEFORE",
                ),
            ),
        ),
    ]
