"""Clicks that race on the waiting list; on SQLite and, where DATABASE_URL says so, on PostgreSQL."""

from collections import Counter
from datetime import timedelta

import pytest
from django.utils import timezone

from plots import service
from plots.models import Assignment, LeftWhy, Offer, WaitingEntry
from tests.concurrency import at_once
from tests.factories import MembershipFactory, PlotFactory, SeasonFactory, WaitingFactory

pytestmark = pytest.mark.usefixtures("many_connections")


def kinds(answers) -> Counter:
    return Counter(type(answer).__name__ for answer in answers)


@pytest.fixture
def offer_to(many_connections):
    plot = PlotFactory()
    today = plot.garden.today()
    season = SeasonFactory(garden=plot.garden, starts_on=today, ends_on=today + timedelta(days=90))
    keeper = MembershipFactory(garden=plot.garden, role="coordinator").user

    def make(entry):
        return service.make_offer(
            entry=entry, plot=plot, season=season, begins_on=today,
            ends_at=timezone.now() + timedelta(hours=1), by=keeper, why="racing",
        )  # fmt: skip

    make.garden = plot.garden
    return make


def test_one_plot_is_offered_to_one_of_four(offer_to):
    entries = [WaitingFactory(garden=offer_to.garden) for _n in range(4)]
    assert kinds(at_once(offer_to, entries)) == {"Offer": 1, "ValidationError": 3}
    assert Offer.objects.filter(place__isnull=False).count() == 1


def test_of_yes_and_no_at_once_one_counts(offer_to):
    offer = offer_to(WaitingFactory(garden=offer_to.garden))
    verbs = [service.accept_offer, service.decline_offer, service.accept_offer]
    answers = at_once(lambda verb: verb(offer=offer), verbs)
    assert kinds(answers) == {"Offer": 1, "ValidationError": 2}
    offer.refresh_from_db()
    assert Assignment.objects.count() == (1 if offer.answer == "accepted" else 0)


def test_whoever_cancels_while_the_offer_is_made_has_no_open_offer(offer_to):
    entry = WaitingFactory(garden=offer_to.garden)
    leave = {"entry": entry, "why": LeftWhy.CANCELLED, "by": None}
    at_once(lambda do: do(), [lambda: offer_to(entry), lambda: service.leave_list(**leave)])
    assert not WaitingEntry.objects.get(pk=entry.pk).waits
    assert not Offer.objects.filter(place__isnull=False).exists()
