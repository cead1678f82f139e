"""Every address of the project, asked by everybody, against the table in `plots.doors`.

An address without a row there fails, so that no page can be added without deciding who may see it.
"""

from copy import copy
from dataclasses import replace
from functools import partial
from http import HTTPStatus
from itertools import product

import pytest
from django.conf import settings
from django.contrib.auth.backends import ModelBackend
from django.core.handlers.base import BaseHandler
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.test import Client, RequestFactory, override_settings
from django.urls import URLPattern, get_resolver, resolve, reverse

from plots import urls
from plots.doors import DOORS, Answer, Who, answers, answers_at_shared, power_of
from plots.models import Assignment, Garden, Membership, Plot, PlotKind, User
from plots.powers import EVERY_POWER, Power
from tests.answers import looked_at
from tests.cast import Cast
from tests.doors.addresses import arguments

SIGN_IN = "/sign-in/"
METHODS = ("get", "post")
AT_ONCE = 16
BATCHES = [list(DOORS)[start : start + AT_ONCE] for start in range(0, len(DOORS), AT_ONCE)]
STATUS = {404: Answer.MISSING, 403: Answer.REFUSED, 405: Answer.NO_METHOD}


def answer_of(response: HttpResponse) -> Answer | int:
    """What somebody got; a status that is no answer, such as that of a fault, as it is."""
    if response.status_code == 302 and response.headers["Location"].startswith(f"{SIGN_IN}?next="):
        return Answer.SIGN_IN
    if response.status_code in (200, 302, 422):
        return Answer.SERVED
    return STATUS.get(response.status_code, response.status_code)


def every_name(resolver=None, space=""):
    resolver = resolver or get_resolver()
    for pattern in resolver.url_patterns:
        if isinstance(pattern, URLPattern):
            yield f"{space}{pattern.name}"
        else:
            inner = f"{pattern.namespace}:" if pattern.namespace else space
            yield from every_name(pattern, inner)


@pytest.fixture(autouse=True, scope="module")
def sessions_in_cookies():
    """Thousands of answers, none of which depends on where sessions are kept: here in no table."""
    with override_settings(
        SESSION_ENGINE="django.contrib.sessions.backends.signed_cookies",
        AUTHENTICATION_BACKENDS=[f"{__name__}.{Known.__name__}"],
    ):
        yield


class Known(ModelBackend):
    """Knows who has come so often; each request gets a person of its own, which it may change."""

    people: dict[int, User] = {}

    def get_user(self, user_id: int) -> User:
        return copy(self.people[int(user_id)])


@pytest.fixture
def short_refusals(monkeypatch) -> None:
    """Without the pages that say so: they are drawn for everybody by a test of their own."""
    for status in (403, 404):
        monkeypatch.setattr(
            urls,
            f"handler{status}",
            lambda _request, exception, status=status: HttpResponse(str(exception), status=status),
            raising=False,
        )


@pytest.fixture
def sessions(cast) -> dict[Who, str]:
    """The session that each of the cast is signed in with."""
    found = {}
    people = (getattr(cast, who.name.lower(), None) for who in Who)
    Known.people = {person.pk: person for person in people if person}
    for who in Who:
        if person := getattr(cast, who.name.lower(), None):
            client = Client()
            client.force_login(person)
            found[who] = client.cookies[settings.SESSION_COOKIE_NAME].value
    return found


def state_powers(cast: Cast, power: Power | None) -> None:
    """One helper has this power alone; the other has all but this one, so no power opens another one's."""
    others = EVERY_POWER - {power} if power else []
    Membership.objects.filter(user=cast.helper).update(powers=[str(other) for other in others])
    Membership.objects.filter(user=cast.deputy).update(powers=[power] if power else list(Power))


@pytest.fixture(scope="module")
def installation(sessions_in_cookies) -> BaseHandler:
    """What answers requests: one for all; a `Client` would make its own and copy what each page shows."""
    handler = BaseHandler()
    handler.load_middleware()
    return handler


def request_for(method: str, address: str, session: str | None) -> HttpRequest:
    factory = RequestFactory()
    if session:
        factory.cookies[settings.SESSION_COOKIE_NAME] = session
    request = getattr(factory, method)(address)
    request._dont_enforce_csrf_checks = True  # as `Client` does; test_middleware.py asks for tokens
    return request


def refused_unseen(method: str, address: str) -> bool:
    """Whether a view refuses the method of whoever asks: it is given nobody whom it could look at."""
    view, _, kwargs = resolve(address)
    return view(request_for(method, address, None), **kwargs).status_code == HTTPStatus.METHOD_NOT_ALLOWED


@pytest.fixture
def visit(cast, sessions, installation, short_refusals):
    return partial(visit_as_everybody, cast=cast, sessions=sessions, installation=installation)


def visit_as_everybody(
    name: str, method: str, rule: str, *, cast: Cast, sessions: dict[Who, str], installation: BaseHandler
) -> dict[Who, Answer | int]:
    """What everybody gets at an address; each meets the garden as it was."""
    got = {}
    with transaction.atomic():
        cast = replace(
            cast,
            garden=Garden.objects.get(pk=cast.garden.pk),
            plot=Plot.objects.get(pk=cast.plot.pk),
            assignment=Assignment.objects.get(pk=cast.assignment.pk),
        )
        address = reverse(name, kwargs=arguments(name, cast))
        state_powers(cast, power_of(rule))
        seen = list(Who)
        if answers(rule)[Who.COORDINATOR] is Answer.NO_METHOD and refused_unseen(method, address):
            seen = [Who.NOBODY, Who.COORDINATOR]
            got = dict.fromkeys(Who, Answer.NO_METHOD)
        for who in seen:
            with transaction.atomic():
                request = request_for(method, address, sessions.get(who))
                with looked_at(installation.get_response(request)) as response:
                    got[who] = answer_of(response)
                transaction.set_rollback(True)
        transaction.set_rollback(True)
    return got


def test_every_address_has_a_rule():
    assert sorted(every_name()) == sorted(DOORS)


@pytest.mark.parametrize("names", BATCHES, ids=lambda names: names[0])
def test_everybody_gets_what_the_rules_say(names, visit):
    """Some addresses in one test each, because signing everybody in takes longer than their requests."""
    wrong = []
    for name, method in product(names, METHODS):
        rule = DOORS[name][METHODS.index(method)]
        got, expected = visit(name, method, rule), answers(rule)
        for who in Who:
            if got[who] != expected[who]:
                wrong.append(f"{method} {name} as {who}: {got[who]}, not {expected[who]}")
    assert not wrong, "\n".join(wrong)


def test_at_a_plot_that_all_garden_every_member_looks_and_logs(visit, cast):
    Plot.objects.filter(pk=cast.plot.pk).update(kind=PlotKind.COMMUNAL)
    wrong = {}
    for name, rules in DOORS.items():
        for method, rule in zip(METHODS, rules, strict=True):
            if (expected := answers_at_shared(rule)) == answers(rule):
                continue
            if (got := visit(name, method, rule)) != expected:
                wrong[method, name] = got
    assert wrong == {}


@pytest.mark.parametrize("address", ["/g/linden-row/nowhere/", "/g/linden-row/settings/", "/nowhere/"])
def test_who_is_refused_gets_a_page_that_says_so(address, sessions, installation):
    for who in Who:
        request = request_for("get", address, sessions.get(who))
        with looked_at(installation.get_response(request)) as response:
            if answer_of(response) is Answer.SIGN_IN and who is Who.NOBODY:
                continue
            title = {200: "Settings", 403: "Not for you to do", 404: "Nothing here"}[response.status_code]
            assert f"<h1>{title}</h1>" in response.content.decode(), who


def test_what_one_visitor_did_is_gone_for_the_next(visit):
    """Or the table would prove nothing."""
    for _time in range(2):
        assert visit("plots:member_leave", "post", "run") == answers("run")
