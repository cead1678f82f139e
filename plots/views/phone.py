"""What a phone needs to work without signal: who is asking, what to keep, and how to install."""

from __future__ import annotations

import json
from hashlib import sha256

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.templatetags.static import static
from django.urls import reverse
from django.utils.translation import get_language, get_language_bidi
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from plots import access
from plots.phone import FILES, KEPT_PAGES, SHORTCUTS, STAKE, WORKER_FILES
from plots.wording.phone import shortcut_text


@login_not_required
@never_cache
@require_safe
def who(request: HttpRequest) -> HttpResponse:
    """Who is signed in, asked before anything kept on a phone is sent; and a fresh proof of origin for it."""
    person = request.user if request.user.is_authenticated else None
    return JsonResponse(
        {
            "person": person and person.pk,
            "name": person.name if person else "",
            "csrf": get_token(request),
        }
    )


@login_not_required
@require_safe
def phone(request: HttpRequest) -> HttpResponse:
    """What waits on this phone, filled in by the phone itself; also shown for pages that it has not kept."""
    return render(request, "plots/phone.html")


@login_not_required
@require_safe
def worker(request: HttpRequest) -> HttpResponse:
    """The service worker; served from the root so that it may look after every page."""
    files = [static(name) for name in FILES]
    about = {
        "root": reverse("plots:home"),
        "who": reverse("plots:who"),
        "page": reverse("plots:phone"),
        "files": files,
        "keep": KEPT_PAGES,
        "stake": STAKE,
        "version": sha256("\n".join(files).encode()).hexdigest()[:12],
    }
    scripts = ", ".join(json.dumps(static(name)) for name in WORKER_FILES)
    return HttpResponse(
        f"self.about = {json.dumps(about)};\nimportScripts({scripts});\n",
        content_type="text/javascript; charset=utf-8",
        headers={"Cache-Control": "no-cache"},
    )


@login_not_required
@require_safe
def manifest(request: HttpRequest) -> HttpResponse:
    """How the app is installed, with shortcuts to the logs of one's own gardens."""
    home = reverse("plots:home")
    about = {
        "id": home,
        "name": "Trugbook",
        "short_name": "Trugbook",
        "description": _("A garden's dates and why."),
        "lang": get_language(),
        "dir": "rtl" if get_language_bidi() else "ltr",
        "start_url": home,
        "scope": home,
        "display": "standalone",
        "background_color": "#fdfcf7",
        "theme_color": "#fdfcf7",
        "icons": [_icon(192, "any"), _icon(512, "any"), _icon(512, "maskable")],
        "shortcuts": _shortcuts(request),
    }
    return JsonResponse(
        about, content_type="application/manifest+json", headers={"Cache-Control": "private, no-cache"}
    )


def _icon(size: int, purpose: str) -> dict[str, str]:
    name = "trug" if purpose == "any" else f"trug-{purpose}"
    return {
        "src": static(f"icons/{name}-{size}.png"),
        "sizes": f"{size}x{size}",
        "type": "image/png",
        "purpose": purpose,
    }


def _shortcuts(request: HttpRequest) -> list[dict[str, str]]:
    """The commonest logs of the one garden a person belongs to; with several, one log form for each."""
    gardens = list(access.visible_gardens(request.user).order_by("name")[: len(SHORTCUTS)])
    if len(gardens) != 1:
        return [
            {"name": garden.name, "url": reverse("schedules:log_new", args=[garden.slug])}
            for garden in gardens
        ]
    address = reverse("schedules:log_new", args=[gardens[0].slug])
    return [{"name": shortcut_text(work), "url": f"{address}?work={work}"} for work in SHORTCUTS]
