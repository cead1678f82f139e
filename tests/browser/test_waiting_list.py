"""The waiting list as its people use it: who signs up, on a phone; who looks after it, at a desk."""

from datetime import timedelta

import pytest
from django.utils import timezone
from playwright.sync_api import expect

from plots import service
from plots.models import Assignment, Offer, ToldHow, WaitingEntry
from tests.browser.looking import check
from tests.factories import PlotFactory, SeasonFactory, WaitingFactory

LINE = "/g/linden-row/waiting/"


@pytest.fixture
def season(cast):
    today = cast.garden.today()
    cast.garden.rules.sign_up_open = True
    cast.garden.rules.save()
    return SeasonFactory(
        garden=cast.garden, starts_on=today - timedelta(days=9), ends_on=today + timedelta(days=200)
    )


def own_page(entry) -> str:
    return "/" + service.place_link(entry).split("/", 3)[3]


def test_from_the_public_page_to_a_plot(desktop, phone, cast, season, enter):
    PlotFactory(garden=cast.garden, label="B1")
    phone.goto("/join/linden-row/")
    phone.get_by_label("name").fill("Ana Peris")
    phone.get_by_label("telephone").fill("555 0101")
    check(phone)
    phone.get_by_role("button", name="Join the waiting list").click()
    expect(phone.get_by_text("That went very fast")).to_be_visible()
    expect(phone.get_by_label("name")).to_have_value("Ana Peris")
    check(phone)
    phone.wait_for_timeout(3100)  # nobody types that fast
    phone.get_by_role("button", name="Join the waiting list").click()
    expect(phone.get_by_text("1st: joined")).to_be_visible()
    check(phone)

    enter(desktop, cast.coordinator)
    desktop.goto(LINE)
    expect(desktop.get_by_text("next: Ana Peris")).to_be_visible()
    check(desktop)
    desktop.get_by_role("link", name="Offer B1 to Ana Peris").click()
    check(desktop)
    desktop.get_by_role("button", name="Make the offer").click()
    expect(desktop.get_by_text("not yet")).to_be_visible()
    check(desktop)
    desktop.get_by_role("button", name="Told them by telephone").click()
    expect(desktop.get_by_role("button", name="Told them by telephone")).to_have_count(0)

    phone.reload()
    expect(phone.get_by_role("heading", name="Plot B1 is offered to you")).to_be_visible()
    check(phone)
    phone.get_by_role("button", name="Yes, I take plot B1").click()
    expect(phone.get_by_text("Plot B1 is yours from")).to_be_visible()
    held = Assignment.objects.get(plot__label="B1")
    assert (held.holder.name, WaitingEntry.objects.get().waits) == ("Ana Peris", False)


def test_no_silence_and_an_exception_with_its_reason(desktop, phone, cast, season, enter):
    plot = PlotFactory(garden=cast.garden, label="B1")
    bo, cy, _di = (WaitingFactory(garden=cast.garden, name=name) for name in ("Bo", "Cy", "Di"))
    days = {"begins_on": cast.garden.today(), "ends_at": timezone.now() + timedelta(hours=48)}
    service.make_offer(entry=bo, plot=plot, season=season, by=cast.coordinator, **days)
    phone.goto(own_page(bo))
    phone.get_by_role("button", name="No, thank you").click()
    expect(phone.get_by_text("3rd: joined")).to_be_visible()
    check(phone)

    enter(desktop, cast.coordinator)
    desktop.goto(LINE)
    expect(desktop.get_by_text("next: Cy")).to_be_visible()
    silent = service.make_offer(entry=cy, plot=plot, season=season, by=cast.coordinator, **days)
    service.tell_offer(offer=silent, how=ToldHow.PHONE, by=cast.coordinator)
    long_ago = timezone.now() - timedelta(days=3)
    Offer.objects.filter(pk=silent.pk).update(made_at=long_ago, ends_at=long_ago + timedelta(hours=48))
    desktop.reload()
    expect(desktop.get_by_text("the offer to Cy ran out")).to_be_visible()
    check(desktop)
    phone.goto(own_page(cy))
    expect(phone.get_by_text("The time to answer the offer of plot B1 was over")).to_be_visible()
    check(phone)

    desktop.get_by_role("link", name="Offer B1 to Di").click()
    desktop.get_by_label("Offered to").select_option(label="3. Bo")
    desktop.get_by_role("button", name="Make the offer").click()
    expect(desktop.get_by_text("Di is next in line. Say why Bo gets the offer")).to_be_visible()
    check(desktop)
    desktop.get_by_label("Why not the next in line").fill("Di is away until spring")
    desktop.get_by_role("button", name="Make the offer").click()
    expect(desktop.get_by_text("Di would have been next. Di is away until spring")).to_be_visible()
    silent.refresh_from_db()
    assert silent.answer == "unanswered"
