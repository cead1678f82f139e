"""Project-wide: the door through which a web server reaches Trugbook."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "plots.settings")
application = get_wsgi_application()

from django.conf import settings  # noqa: E402 (usable only after the line above)
from django.db import connections  # noqa: E402
from django.urls import set_script_prefix  # noqa: E402

from plots.service.first_visit import announce  # noqa: E402

set_script_prefix(f"{settings.SITE.path}/")  # each request brings it, and none has come yet
announce()
connections.close_all()  # a server that forks its workers from here must not share a connection
