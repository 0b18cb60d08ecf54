"""Server entry: ``gunicorn clinic.wsgi``."""

import os
from importlib import import_module

from django.conf import settings
from django.core.wsgi import get_wsgi_application

from clinic.bad_input import utf8_only
from clinic.database.least_rights import refuse_owner

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "clinic.settings")
application = utf8_only(get_wsgi_application())

if settings.MODE != "test":
    refuse_owner()

# Large libraries of numbers and drawing are read once at the start, not while somebody waits.
import_module("clinic.trends.figure")
import_module("scipy.stats")
