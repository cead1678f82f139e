"""Answers to the script that sends what a phone kept: the same pages' refusals, as JSON."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps

from django.core.exceptions import PermissionDenied, ValidationError
from django.forms import BaseForm
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.utils.translation import gettext as _

View = Callable[..., HttpResponse]


def wants_json(request: HttpRequest) -> bool:
    """Whether the script asks; a browser takes anything, but a page first."""
    return request.get_preferred_type(["text/html", "application/json"]) == "application/json"


def told_in_json(view: View) -> View:
    """Lets the view's refusals reach the script as `{"error": sentence}`; people get their pages."""

    @wraps(view)
    def told(request: HttpRequest, *args: object, **kwargs: object) -> HttpResponse:
        if not wants_json(request):
            return view(request, *args, **kwargs)
        if (another := _author_refused(request)) is not None:
            return another
        try:
            return view(request, *args, **kwargs)
        except Http404:
            return JsonResponse({"error": _("This is not there, or not yours to see.")}, status=404)
        except PermissionDenied as error:
            return JsonResponse({"error": str(error) or _("You may not do this.")}, status=403)

    return told


def _author_refused(request: HttpRequest) -> JsonResponse | None:
    """What one person kept on the phone is never sent as another's."""
    author = request.POST.get("author", "")
    if request.method != "POST" or not author or author == str(request.user.pk):
        return None
    words = _("This was written by somebody else on this phone. It waits until they sign in.")
    return JsonResponse({"author": words}, status=409)


def faults_in_json(faults: BaseForm | ValidationError) -> JsonResponse:
    """The sentences of a form or a service by field, `__all__` for the whole."""
    if isinstance(faults, BaseForm):
        told = {name: list(errors) for name, errors in faults.errors.items()}
    elif hasattr(faults, "error_dict"):
        told = faults.message_dict
    else:
        told = {"__all__": faults.messages}
    return JsonResponse({"errors": told}, status=422)
