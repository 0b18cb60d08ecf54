"""Server entry: ``gunicorn clinic.wsgi``."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "clinic.settings")
application = get_wsgi_application()

# Large libraries of numbers and drawing, read once at the start and not while somebody waits.
import matplotlib.backends.backend_svg  # noqa: E402
import scipy.stats  # noqa: E402, F401
