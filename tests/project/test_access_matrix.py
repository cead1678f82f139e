"""Every address of the project, asked by everybody, against the table in `plots.doors`.

An address without a row there fails, so that no page can be added without deciding who may see it.
"""

import pytest
from django.db import transaction
from django.urls import URLPattern, get_resolver, reverse

from plots.doors import DOORS, Answer, Who, answers, power_of
from plots.models import Membership
from plots.powers import EVERY_POWER, Power
from tests.project.addresses import arguments

SIGN_IN = "/sign-in/"
STATUS = {404: Answer.MISSING, 403: Answer.REFUSED, 405: Answer.NO_METHOD}


def answer_of(response) -> Answer:
    if response.status_code == 302 and response.headers["Location"].startswith(f"{SIGN_IN}?next="):
        return Answer.SIGN_IN
    if response.status_code in STATUS:
        return STATUS[response.status_code]
    assert response.status_code in (200, 302, 422), response.status_code
    return Answer.SERVED


def every_name(resolver=None, space=""):
    resolver = resolver or get_resolver()
    for pattern in resolver.url_patterns:
        if isinstance(pattern, URLPattern):
            yield f"{space}{pattern.name}"
        else:
            inner = f"{pattern.namespace}:" if pattern.namespace else space
            yield from every_name(pattern, inner)


def state_powers(cast, power: Power | None) -> None:
    """One helper has this power alone; the other has all but this one, so no power opens another one."""
    others = EVERY_POWER - {power} if power else []
    Membership.objects.filter(user=cast.helper).update(powers=[str(other) for other in others])
    Membership.objects.filter(user=cast.deputy).update(powers=[power] if power else list(Power))


def test_every_address_has_a_rule():
    assert sorted(every_name()) == sorted(DOORS)


@pytest.mark.parametrize("name", DOORS)
@pytest.mark.parametrize("method", ["get", "post"])
def test_everybody_gets_what_the_rule_says(name, method, cast, as_user):
    rule = DOORS[name][("get", "post").index(method)]
    address = reverse(name, kwargs=arguments(name, cast))
    state_powers(cast, power_of(rule))
    got = {}
    for who in Who:
        with transaction.atomic():
            client = as_user(getattr(cast, who.name.lower(), None))
            got[who] = answer_of(getattr(client, method)(address))
            transaction.set_rollback(True)  # everybody meets the garden as it was
    assert got == answers(rule)
