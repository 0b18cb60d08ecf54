from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("patients", "0004_languages_of_sheets"),
        ("visits", "0004_unfinished_visits"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.AddIndex(
            model_name="visit",
            index=models.Index(fields=["happened_at"], name="visit_by_day"),
        ),
        migrations.AddIndex(
            model_name="visit",
            index=models.Index(fields=["signed_at"], name="visit_by_signing"),
        ),
    ]
