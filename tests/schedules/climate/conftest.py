"""A garden with the record of Champion, Nebraska, its coordinator and a member."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime

import pytest
from django.test import Client

from plots.models import Garden, Role
from schedules.models import StationRecord
from schedules.service import choose_basis
from schedules.stations.summary import as_plain, summary_of
from tests.factories import GardenFactory, MembershipFactory
from tests.schedules.records import champion
from tests.schedules.samples import keep_days

# The same in every test, so that the process counts the freezes of the record once; see `service.climate`.
_KEY, _CHANGED_AT = 1982, datetime(2026, 1, 1, tzinfo=UTC)


@dataclass
class Place:
    garden: Garden
    coordinator: Client
    member: Client

    def url(self, rest: str = "") -> str:
        return f"/g/{self.garden.slug}/frost/{rest}"


@pytest.fixture
def place(as_user) -> Place:
    garden = GardenFactory(latitude=40.4, longitude=-101.7)
    people = [MembershipFactory(garden=garden, role=role).user for role in (Role.COORDINATOR, Role.MEMBER)]
    return Place(garden, *map(as_user, people))


@pytest.fixture
def recorded(place) -> Place:
    """The same place planning by that record."""
    station = champion()
    record = StationRecord.objects.create(
        pk=_KEY,
        changed_at=_CHANGED_AT,
        garden=place.garden,
        name="Champion, Nebraska",
        file_format=station.layout,
        first_day=station.days[0].day,
        last_day=station.days[-1].day,
        findings=as_plain(summary_of(station)),
    )
    keep_days(record, station.days)
    choose_basis(garden=place.garden, basis="record", record=record)
    return place
