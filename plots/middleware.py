"""What happens around every request: the content policy, how pages travel, language, the sign-in page."""

from __future__ import annotations

from collections.abc import Callable
from urllib.parse import urlsplit

from django.conf import settings
from django.contrib.auth.middleware import LoginRequiredMiddleware
from django.contrib.auth.views import redirect_to_login
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.gzip import GZipMiddleware
from django.shortcuts import resolve_url
from django.utils import translation
from django.utils.cache import patch_vary_headers
from django.utils.http import urlencode
from django.utils.translation import gettext as _
from django_htmx.http import HttpResponseClientRedirect

Handler = Callable[[HttpRequest], HttpResponse]


class ContentSecurityPolicy:
    """Sends the policy of `SECURE_CSP` with every answer; Django 6 will do so itself."""

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response
        self.policy = "; ".join(f"{name} {' '.join(values)}" for name, values in settings.SECURE_CSP.items())

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.headers.setdefault("Content-Security-Policy", self.policy)
        return response


class BodyLimited:
    """Refuses what is far too large before any of it is read; a web server in front may do so earlier."""

    MOST_BYTES = 66_000_000  # the largest weather record; several photos as telephones take them

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        length = request.META.get("CONTENT_LENGTH") or "0"
        if length.isdecimal() and int(length) <= self.MOST_BYTES:
            return self.get_response(request)
        words = _("This is more than %(size)d MB at once.") % {"size": self.MOST_BYTES // 1_000_000}
        return HttpResponse(words, status=413, content_type="text/plain; charset=utf-8")


class TextsCompressed(GZipMiddleware):
    """Sends texts compressed; photos and papers are so already, and would only lose their length."""

    TEXTS = ("text/", "application/json", "application/manifest+json", "image/svg+xml")

    def process_response(self, request: HttpRequest, response: HttpResponse) -> HttpResponse:
        if not response.headers.get("Content-Type", "").startswith(self.TEXTS):
            return response
        return super().process_response(request, response)


class PagesPrivate:
    """Pages are one person's, and asked for anew each time, unless a view says otherwise."""

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if response.headers.get("Content-Type", "").startswith("text/html"):
            response.headers.setdefault("Cache-Control", "private, no-cache")
        return response


class Language:
    """Speaks the language a person chose, else the one their browser asks for."""

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        chosen = getattr(request.user, "language", "")
        if chosen not in dict(settings.LANGUAGES):
            chosen = translation.get_language_from_request(request)
        with translation.override(chosen):
            request.LANGUAGE_CODE = chosen  # type: ignore[attr-defined]
            response = self.get_response(request)
        response.headers.setdefault("Content-Language", chosen)
        patch_vary_headers(response, ["Accept-Language"])
        return response


class SignInRequired(LoginRequiredMiddleware):
    """Every page asks for a sign-in unless it says otherwise; a part asked for by htmx leaves as a page.

    A phone that sends what it has kept is told so in JSON, and keeps it until somebody has signed in.
    """

    def handle_no_permission(self, request: HttpRequest, view_func: Callable[..., object]) -> HttpResponse:
        if request.get_preferred_type(["text/html", "application/json"]) == "application/json":
            return JsonResponse({"sign_in": resolve_url(settings.LOGIN_URL)}, status=401)
        if not request.htmx:  # type: ignore[attr-defined]
            if request.method in ("GET", "HEAD"):
                return super().handle_no_permission(request, view_func)
            # What was sent cannot be sent again by an address: one comes back to the page with the button.
            return redirect_to_login(_page_before(request), resolve_url(settings.LOGIN_URL))
        back = request.htmx.current_url_abs_path or _start()  # type: ignore[attr-defined]
        return HttpResponseClientRedirect(f"{resolve_url(settings.LOGIN_URL)}?{urlencode({'next': back})}")


def _page_before(request: HttpRequest) -> str:
    """The page of ours that the request came from, else the start."""
    before = urlsplit(request.headers.get("Referer", ""))
    if before.netloc != request.get_host():
        return _start()
    return before._replace(scheme="", netloc="").geturl() or _start()


def _start() -> str:
    return resolve_url(settings.LOGIN_REDIRECT_URL)
