"""Server entry: ``gunicorn clinic.wsgi``."""

import os
from importlib import import_module

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "clinic.settings")
application = get_wsgi_application()

# Large libraries of numbers and drawing are read once at the start, not while somebody waits.
import_module("clinic.trends.figure")
import_module("scipy.stats")
