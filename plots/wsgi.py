"""Project-wide: the door through which a web server reaches Trugbook."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "plots.settings")
application = get_wsgi_application()

from plots.service.first_visit import announce  # noqa: E402 (models exist only after the line above)

announce()
