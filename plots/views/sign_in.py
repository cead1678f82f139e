"""Coming in and going out."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth import authenticate, login, logout, update_session_auth_hash
from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST

from plots import service
from plots.forms.sign_in import AccountForm, FirstVisitForm, PasswordForm, SignInForm
from plots.models import User
from plots.views.answers import form_page, page_with_form, saved, typed

# Where somebody was going when they were asked to sign in: a link, opened later, brings them there.
WANTED = "wanted"
WANTED_FOR = 24 * 60 * 60


def _next(request: HttpRequest) -> str:
    return _safe(request, request.POST.get("next") or request.GET.get("next") or "")


def _safe(request: HttpRequest, wanted: str) -> str:
    """The address, if it is one of ours."""
    safe = url_has_allowed_host_and_scheme(wanted, {request.get_host()}, require_https=request.is_secure())
    return wanted if safe else "plots:home"


def _remember(request: HttpRequest, response: HttpResponse) -> HttpResponse:
    wanted = _next(request)
    if wanted != "plots:home" and len(wanted) < 500:
        response.set_cookie(
            WANTED, wanted, max_age=WANTED_FOR, secure=request.is_secure(), httponly=True, samesite="Lax"
        )
    return response


def _go_on(wanted: str) -> HttpResponse:
    response = redirect(wanted)
    response.delete_cookie(WANTED, samesite="Lax")
    return response


def _wait(form: SignInForm | FirstVisitForm) -> None:
    form.add_error(None, _("Too many attempts. Wait a quarter of an hour, or ask for a sign-in link."))


@login_not_required
@never_cache
@sensitive_post_parameters("password")
@page_with_form
def sign_in(request: HttpRequest) -> HttpResponse:
    form = SignInForm(typed(request))
    if request.method == "POST" and form.is_valid():
        account = form.cleaned_data["account"]
        if not service.count_attempt(request=request, account=account):
            _wait(form)
        elif user := authenticate(request, username=account, password=form.cleaned_data["password"]):
            service.forgive_attempt(request=request, account=account)
            login(request, user)
            if form.cleaned_data["shared"]:
                request.session.set_expiry(0)
            return _go_on(_next(request))
        else:
            form.add_error("password", _("The name and the password do not go together."))
    return _remember(request, form_page(request, "plots/sign_in.html", form, next=_next(request)))


@login_not_required
@never_cache
@page_with_form
def link(request: HttpRequest, token: str) -> HttpResponse:
    """Opening a link only shows a button, so that a mail scanner uses nothing up; pressing it signs in."""
    status = 200
    if request.method == "POST":
        allowed = service.count_attempt(request=request, account="")
        user = service.use_link(token=token) if allowed else None
        if user is not None:
            service.forgive_attempt(request=request, account="")
            login(request, user)
            return _go_on(_safe(request, request.COOKIES.get(WANTED, "")))
        status = 422
    person = service.person_of_link(token) if status == 200 else None
    return render(request, "plots/link.html", {"person": person}, status=status)


@login_not_required
@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    logout(request)
    response = redirect("plots:sign_in")
    response.headers["Clear-Site-Data"] = '"cache"'
    return response


@login_not_required
@never_cache
@page_with_form
def first_visit(request: HttpRequest) -> HttpResponse:
    """Makes the first garden and its coordinator; gone as soon as there is anybody."""
    if service.is_founded():
        raise Http404
    form = FirstVisitForm(typed(request))
    if request.method == "POST":
        if not service.count_attempt(request=request, account="first visit"):
            _wait(form)
        elif form.is_valid():
            founder = User(name=form.cleaned_data["person"])
            try:
                garden = service.found_installation(garden=form.save(commit=False), founder=founder)
            except ValidationError as error:
                form.add_error(None, error)
            else:
                login(request, founder)
                return redirect("plots:set_up", garden.slug)
    return form_page(request, "plots/first_visit.html", form)


@never_cache
@sensitive_post_parameters("current", "new")
@page_with_form
def account(request: HttpRequest) -> HttpResponse:
    """A person's own name, addresses and password."""
    about = AccountForm(
        typed(request) if "password" not in request.POST else None,
        instance=User.objects.get(pk=request.user.pk),
    )
    password = PasswordForm(request.user, typed(request) if "password" in request.POST else None)
    if about.is_bound and about.is_valid() and saved(about):
        messages.success(request, _("Kept."))
        return redirect("plots:account")
    if password.is_bound and password.is_valid():
        request.user.set_password(password.cleaned_data["new"])
        request.user.save(update_fields=["password"])
        update_session_auth_hash(request, request.user)
        messages.success(request, _("The password is set. Other devices have to sign in again."))
        return redirect("plots:account")
    context = {"about": about, "password": password}
    return render(request, "plots/account.html", context, status=422 if typed(request) else 200)
