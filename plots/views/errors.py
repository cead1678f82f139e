"""Pages for what went wrong, in plain words."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render


def csrf_failure(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Shown when a form came back without its proof of origin; the page says which setting to look at."""
    return render(request, "plots/csrf_failure.html", {"reason": reason}, status=403)
