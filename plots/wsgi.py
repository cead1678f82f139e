"""Project-wide: the door through which a web server reaches Trugbook."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "plots.settings")
application = get_wsgi_application()

from django.db import connections  # noqa: E402 (usable only after the line above)

from plots.service.first_visit import announce  # noqa: E402

announce()
connections.close_all()  # a server that forks its workers from here must not share a connection
