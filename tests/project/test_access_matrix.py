"""Every address of the project, asked by everybody, with GET and with POST.

An address without a rule here fails, so that no page can be added without deciding who may see it.
"""

from enum import Enum

import pytest
from django.db import transaction
from django.urls import URLPattern, get_resolver, reverse

from tests.project.addresses import ROWS, arguments

PEOPLE = (
    "nobody",
    "holder",
    "co_gardener",
    "member",
    "helper",
    "coordinator",
    "stranger",
    "other_coordinator",
)


SIGN_IN = "/sign-in/"


class Answer(Enum):
    """What somebody gets, whatever the page then makes of the request."""

    SIGN_IN = "the sign-in page"
    MISSING = 404
    REFUSED = 403
    NO_METHOD = 405
    SERVED = "the page, or what follows from the form"


def answer_of(response) -> Answer:
    if response.status_code == 302 and response.headers["Location"].startswith(f"{SIGN_IN}?next="):
        return Answer.SIGN_IN
    for answer in (Answer.MISSING, Answer.REFUSED, Answer.NO_METHOD):
        if response.status_code == answer.value:
            return answer
    assert response.status_code in (200, 302, 422), response.status_code
    return Answer.SERVED


def _garden(member: Answer, helper: Answer, holder: Answer) -> dict[str, Answer]:
    """A page inside a garden: outsiders do not know that it exists, its coordinator may."""
    return {
        "nobody": Answer.SIGN_IN,
        "stranger": Answer.MISSING,
        "other_coordinator": Answer.MISSING,
        "member": member,
        "helper": helper,
        "holder": holder,
        "co_gardener": holder,
        "coordinator": Answer.SERVED,
    }


RULES = {
    "everybody": dict.fromkeys(PEOPLE, Answer.SERVED),
    "nobody at all": dict.fromkeys(PEOPLE, Answer.MISSING),
    "signed in": {**dict.fromkeys(PEOPLE, Answer.SERVED), "nobody": Answer.SIGN_IN},
    "keeper": {**dict.fromkeys(PEOPLE, Answer.REFUSED), "nobody": Answer.SIGN_IN},
    "garden": _garden(Answer.SERVED, Answer.SERVED, Answer.SERVED),
    "run": _garden(Answer.REFUSED, Answer.REFUSED, Answer.REFUSED),
    "plot": _garden(Answer.MISSING, Answer.SERVED, Answer.SERVED),
    "plan": _garden(Answer.MISSING, Answer.REFUSED, Answer.SERVED),
    "no such method": {**dict.fromkeys(PEOPLE, Answer.NO_METHOD), "nobody": Answer.SIGN_IN},
    "no such method for anybody": dict.fromkeys(PEOPLE, Answer.NO_METHOD),
}


def every_name(resolver=None, space=""):
    resolver = resolver or get_resolver()
    for pattern in resolver.url_patterns:
        if isinstance(pattern, URLPattern):
            yield f"{space}{pattern.name}"
        else:
            inner = f"{pattern.namespace}:" if pattern.namespace else space
            yield from every_name(pattern, inner)


def test_every_address_has_a_rule():
    assert sorted(every_name()) == sorted(ROWS)


@pytest.mark.parametrize("name", ROWS)
@pytest.mark.parametrize("method", ["get", "post"])
def test_everybody_gets_what_the_rule_says(name, method, cast, as_user):
    rule = RULES[ROWS[name][("get", "post").index(method)]]
    address = reverse(name, kwargs=arguments(name, cast))
    got = {}
    for person in PEOPLE:
        with transaction.atomic():
            client = as_user(getattr(cast, person, None))
            got[person] = answer_of(getattr(client, method)(address))
            transaction.set_rollback(True)  # everybody meets the garden as it was
    assert got == rule
