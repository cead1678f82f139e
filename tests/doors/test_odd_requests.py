"""Reading changes nothing, and no request, however odd, ends in a fault."""

import re
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from django.apps import apps
from django.db import connection, transaction
from django.forms import BaseForm
from django.urls import reverse

from plots.doors import DOORS
from tests.answers import looked_at
from tests.doors.addresses import arguments

ODD = ["\x00", "x" * 5000, "-1", "1e999", "9999-12-31", "99999999999999999999"]
ASKED = ("q", "year", "day", "week", "month", "date", "page", "variety", "by", "next", "celsius", "side")


@pytest.fixture
def run(cast, as_user):
    client = as_user(cast.coordinator)
    client.raise_request_exception = False
    return client


OURS = {
    model._meta.db_table
    for model in apps.get_models(include_auto_created=True)
    if model._meta.app_label in ("plots", "crops", "schedules")
}
TABLE = re.compile(r'(?:INTO|UPDATE|DELETE FROM)\s+"(\w+)"', re.IGNORECASE)


@contextmanager
def written() -> Iterator[list[str]]:
    """The statements that write to what is stored, but for who is signed in where."""
    found = []

    def note(execute, sql, params, many, context):
        if OURS.intersection(TABLE.findall(sql)):
            found.append(sql)
        return execute(sql, params, many, context)

    with connection.execute_wrapper(note):
        yield found


READ = [name for name, (get, _post) in DOORS.items() if "method" not in get]
WITH_FORMS = [name for name in READ if "method" not in DOORS[name][1]]


def sixes(names: list[str]) -> list:
    """Six addresses a test, so that their garden is made once; a test is named by the first of them."""
    return [
        pytest.param(names[first : first + 6], first, id=names[first]) for first in range(0, len(names), 6)
    ]


def odd_for(number: int) -> list[str]:
    """Two of the odd values for an address; six addresses have them all."""
    return [ODD[number % len(ODD)], ODD[(number + 3) % len(ODD)]]


@pytest.mark.parametrize(("names", "first"), sixes(READ))
def test_reading_changes_nothing_however_oddly_one_asks(names, first, cast, run):
    faults = {}
    for number, name in enumerate(names, first):
        with transaction.atomic():
            address = reverse(name, kwargs=arguments(name, cast))
            for odd in ["", *odd_for(number)]:
                with written() as changes, looked_at(run.get(address, dict.fromkeys(ASKED, odd))) as response:
                    status = response.status_code
                if status >= 500 or changes:
                    faults[name, odd[:20]] = status, *changes
            transaction.set_rollback(True)  # the next address makes its rows anew
    assert faults == {}


def field_names(response) -> set[str]:
    """The fields of every form on a page."""
    found = [part for layer in response.context or [] for part in layer]
    forms = [form for layer in found for form in layer.values() if isinstance(form, BaseForm)]
    return {form.add_prefix(name) for form in forms for name in form.fields}


@pytest.mark.parametrize(("names", "first"), sixes(WITH_FORMS))
def test_odd_answers_in_forms_are_met_with_a_sentence(names, first, cast, run):
    faults = {}
    for number, name in enumerate(names, first):
        with transaction.atomic():
            address = reverse(name, kwargs=arguments(name, cast))
            fields = field_names(run.get(address))
            for odd in odd_for(number) if fields else ODD[:1]:
                with transaction.atomic():
                    status = run.post(address, dict.fromkeys(fields, odd)).status_code
                    transaction.set_rollback(True)
                if status >= 500:
                    faults[name, odd[:20]] = status
            transaction.set_rollback(True)
    assert faults == {}


def test_what_is_written_is_seen(cast, run):
    with written() as changes:
        run.post("/g/linden-row/settings/", {"name": "Linden Row"})
        assert changes == []  # a form with mistakes
        cast.garden.save()
        cast.assignment.co_gardeners.clear()
    assert [TABLE.findall(sql)[0] for sql in changes][-1] == "plots_assignment_co_gardeners"
    assert "plots_garden" in {table for sql in changes for table in TABLE.findall(sql)}


def test_there_are_forms_with_fields_to_try(cast, run):
    assert field_names(run.get("/g/linden-row/settings/")) >= {"name", "latitude", "elevation_m"}
