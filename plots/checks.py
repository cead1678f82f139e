"""What `manage.py check` looks at before anybody is let in, each with what to do about it."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Error, Tags, Warning, register


@register(Tags.files)
def data_folder_can_be_written(app_configs: Any, **kwargs: Any) -> list[CheckMessage]:
    folders = {settings.DATA_DIR}
    database = settings.DATABASES["default"]
    if database["ENGINE"].endswith("sqlite3") and not str(database["NAME"]).startswith("file:"):
        folders.add(Path(database["NAME"]).parent)
    return [
        Error(
            f"The folder {folder} cannot be written.",
            hint="Give it to the account that runs Trugbook, or name another one in DATA_DIR.",
            id="plots.E001",
        )
        for folder in sorted(folders)
        if not os.access(folder, os.W_OK)
    ]


@register(Tags.security, deploy=True)
def site_is_not_spoken_to_in_clear(app_configs: Any, **kwargs: Any) -> list[CheckMessage]:
    """Plain http is for this machine and a garden's own network; a sign-in over it can be overheard."""
    if settings.SITE.https or settings.SITE.is_local:
        return []
    return [
        Warning(
            f"{settings.SITE_URL} is plain http: who shares the network can read what is sent.",
            hint="Put a web server with https in front and set SITE_URL to its https address.",
            id="plots.W001",
        )
    ]


@register(Tags.staticfiles, deploy=True)
def static_files_are_collected(app_configs: Any, **kwargs: Any) -> list[CheckMessage]:
    if (settings.STATIC_ROOT / "staticfiles.json").exists():
        return []
    return [
        Warning(
            "The style sheets have not been gathered: browsers have to ask for them again and again.",
            hint="Run: python3 manage.py collectstatic --no-input",
            id="plots.W002",
        )
    ]


@register(Tags.security, deploy=True)
def proxy_tells_the_address(app_configs: Any, **kwargs: Any) -> list[CheckMessage]:
    if not settings.SITE.https or settings.TRUSTED_PROXIES:
        return []
    return [
        Warning(
            "SITE_URL is https and TRUSTED_PROXIES is 0: every request is sent to https again and again.",
            hint="Set TRUSTED_PROXIES to the number of web servers in front of Trugbook, usually 1.",
            id="plots.W003",
        )
    ]
