"""Project-wide: the door for web servers that speak ASGI."""

import os

from django.core.asgi import get_asgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "plots.settings")
application = get_asgi_application()
