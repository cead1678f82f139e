"""Every page of a garden in full use: readable by everybody, on every width, in either light and on paper."""

from io import BytesIO

import pytest
from django.urls import NoReverseMatch, reverse
from PIL import Image

from crops.models import Crop, Start, Workshop
from crops.service import update_catalogue
from plots.doors import DOORS
from plots.models import Membership
from schedules.service import import_station, make_feed
from schedules.stations import read_station
from tests.browser.conftest import DESKTOP, PHONE
from tests.browser.looking import obstacles, overflow
from tests.factories import PlantingFactory, VarietyFactory

STATION = "fixtures/stations/champion_daily.csv"
# Not pages of a signed-in coordinator: ways in, files, answers for machines.
ELSEWHERE = {
    "plots:home",
    "plots:link",
    "plots:first_visit",
    "plots:live",
    "plots:ready",
    "plots:who",
    "plots:worker",
    "plots:manifest",
    "plots:sign_in",
    "plots:place",
    "plots:dates_ics",
    "plots:offer_new",
    "plots:waiting_own",
    "schedules:feed_ics",
    "schedules:own_data",
    "schedules:print_file",
    "schedules:printing_pdf",
}
LONG = "Zwiebel ‘Donaudampfschifffahrtsgesellschaftskapitän’"


@pytest.fixture
def addresses(cast) -> dict[str, str]:
    """Every page by its name, with a record, a plan, a variety and a feed to show."""
    update_catalogue()
    garden, plot = cast.garden, cast.plot
    garden.name = "Alder Row and Mill Bridge Community Garden"
    garden.save()
    with open(STATION, "rb") as stream:
        station = read_station(stream, today=garden.today())
    import_station(garden=garden, station=station, name="Champion")
    tomato, carrot = Crop.objects.get(slug="tomato"), Crop.objects.get(slug="carrot")
    variety = VarietyFactory(garden=garden, crop=tomato, name=LONG)
    own = Crop.objects.create(
        garden=garden, slug="own-chard", name="Our chard", hardiness="hardy", method="direct"
    )
    year = garden.today().year
    planting = PlantingFactory(plot=plot, crop=tomato, variety=variety, year=year, start=Start.TRANSPLANT)
    PlantingFactory(plot=plot, crop=carrot, year=year, successions=3)
    make_feed(user=cast.coordinator, garden=garden)
    workshop = Workshop.objects.create(garden=garden, title=LONG, on=garden.today(), topics=["by-crop"])
    workshop.crops.set([tomato, own])
    parts = {
        "plot": [plot.pk],
        "planting": [planting.pk],
        "member": [Membership.objects.get(user=cast.member, garden=garden).pk],
        "season": [cast.assignment.season.pk],
        "holding": [cast.assignment.pk],
        "variety": [tomato.slug, variety.pk],
        "crop": [tomato.slug],
        "own": [own.slug],
        "plot and crop": [plot.pk, tomato.slug],
        "workshop": [workshop.pk],
        "sheet": ["calendar"],
    }
    ways = {name: _way(name, garden.slug, parts.get(KINDS.get(name), [])) for name in _names()}
    ways["schedules:at_plot"] = reverse("schedules:at_plot", args=[plot.stake_code])
    pages = {name: way for name, way in ways.items() if way is not None}
    pages["schedules:plan"] += f"?year={year}"
    pages["schedules:print_kind"] += f"?member=plots&year={year}"
    pages["schedules:week"] += f"?day={year}-05-12"
    return pages


def _names() -> set[str]:
    return {name for name, (get, _post) in DOORS.items() if not get.startswith("no such method")} - ELSEWHERE


def _way(name: str, garden: str, parts: list) -> str | None:
    """The address of a page; `None` where it is about something that only its own part's walks make."""
    for arguments in ([garden, *parts], []):
        try:
            return reverse(name, args=arguments)
        except NoReverseMatch:
            continue
    return None


KINDS = {
    "plots:plot": "plot",
    "plots:plot_edit": "plot",
    "plots:plot_holder": "plot",
    "schedules:plan": "plot",
    "schedules:water": "plot",
    "schedules:planting_add": "plot",
    "schedules:planting": "planting",
    "schedules:planting_edit": "planting",
    "plots:member": "member",
    "plots:member_edit": "member",
    "plots:paper_consent": "member",
    "plots:due_part": "holding",
    "plots:season_edit": "season",
    "crops:variety": "variety",
    "crops:variety_edit": "variety",
    "crops:variety_new": "crop",
    "crops:crop": "crop",
    "crops:crop_edit": "own",
    "schedules:when_crop": "crop",
    "schedules:planting_new": "plot and crop",
    "schedules:print_kind": "sheet",
    "schedules:workshop": "workshop",
    "schedules:workshop_edit": "workshop",
    "schedules:workshop_pack": "workshop",
    "schedules:workshop_came": "workshop",
}


@pytest.fixture
def coordinator(cast):
    cast.coordinator.is_staff = True
    cast.coordinator.save()
    return cast.coordinator


@pytest.mark.parametrize(
    ("device", "scheme"), [(PHONE, "light"), (DESKTOP, "dark")], ids=["phone by day", "desk by night"]
)
def test_every_page_can_be_used_by_everybody(new_page, addresses, coordinator, enter, device, scheme):
    page = new_page(**device, color_scheme=scheme)
    enter(page, coordinator)
    wrong: list[str] = []
    for name, address in addresses.items():
        if page.goto(address).status != 200:
            wrong.append(f"{name} does not open")
        wrong += [f"{name}: {obstacle}" for obstacle in obstacles(page)]
        if overflow(page) > 0:
            wrong.append(f"{name} is wider than its window")
    assert wrong == []


def test_no_page_scrolls_sideways_on_the_narrowest_phone_or_with_text_twice_as_large(
    new_page, addresses, coordinator, enter
):
    page = new_page(viewport={"width": 320, "height": 640})
    enter(page, coordinator)
    wide: list[str] = []
    for name, address in addresses.items():
        page.goto(address)
        if overflow(page) > 0:
            wide.append(f"{name} at 320 px")
        page.set_viewport_size({"width": 640, "height": 900})
        page.evaluate("document.documentElement.style.fontSize = '225%'")
        if overflow(page) > 0:
            wide.append(f"{name} at twice the text")
        page.set_viewport_size({"width": 320, "height": 640})
    assert wide == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_in_sunlight_and_forced_colours_everything_is_still_there(
    new_page, addresses, coordinator, enter, scheme
):
    page = new_page(**PHONE, color_scheme=scheme, contrast="more")
    enter(page, coordinator)
    page.goto(addresses["schedules:plan"])
    assert obstacles(page) == []
    forced = new_page(**PHONE, color_scheme=scheme, forced_colors="active")
    enter(forced, coordinator)
    forced.goto(addresses["schedules:plan"])
    ink, paper = forced.evaluate(
        """() => {
            const mark = document.querySelector('.chart.narrow line.s-ink');
            const page = getComputedStyle(document.documentElement);
            return [getComputedStyle(mark).stroke, page.backgroundColor];
        }"""
    )
    assert ink != paper
    words = Image.open(BytesIO(forced.locator(".action").first.screenshot())).convert("L")
    inner = words.crop((words.width // 4, words.height // 3, words.width * 3 // 4, words.height * 2 // 3))
    shades = inner.point(lambda value: 255 if value > 127 else 0).getcolors()
    assert min(count for count, _shade in shades) > 0.05 * inner.width * inner.height
    assert len(shades) == 2  # words and what they stand on, not one plate


def test_touch_targets_are_as_large_as_a_thumb(new_page, addresses, coordinator, enter):
    """Buttons, fields and the words of the running head; links within text need not be."""
    page = new_page(**PHONE)
    enter(page, coordinator)
    for name, address in addresses.items():
        page.goto(address)
        small = page.evaluate(
            """() => [...document.querySelectorAll(
                    'button, .action, summary, select, textarea, nav a, input:not([type=hidden])')]
                .filter(e => e.getClientRects().length)
                .map(e => (['checkbox', 'radio'].includes(e.type) ? e.closest('.tick, label') : e))
                .filter(e => e.getBoundingClientRect().height < 43.5)
                .map(e => e.outerHTML.slice(0, 120))"""
        )
        assert small == [], name


def test_a_drawing_is_shown_once_and_fits_its_page(new_page, addresses, coordinator, enter):
    for device, variant in ((PHONE, "narrow"), (DESKTOP, "wide")):
        page = new_page(**device)
        enter(page, coordinator)
        page.goto(addresses["schedules:frost"])
        shown = page.locator("figure .chart:visible")
        assert {shown.nth(n).get_attribute("class") for n in range(shown.count())} == {f"chart {variant}"}
        assert shown.count() == 2
        lettering = page.evaluate(
            """() => Math.min(...[...document.querySelectorAll('figure .chart text')]
                .filter(e => e.getClientRects().length)
                .map(e => e.getBoundingClientRect().height))"""
        )
        assert lettering >= 13


def test_pages_print_without_navigation_and_with_every_reason(new_page, addresses, coordinator, enter):
    page = new_page(**DESKTOP)
    enter(page, coordinator)
    for name in (
        "schedules:frost",
        "schedules:when",
        "schedules:when_crop",
        "schedules:week",
        "schedules:plan",
    ):
        page.goto(addresses[name])
        page.emulate_media(media="print")
        for hidden in ("header nav", ".foot", "button", ".action"):
            assert page.locator(f"{hidden}:visible").count() == 0, (name, hidden)
        assert page.locator("h1").is_visible()
        assert (
            page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
            == "rgb(255, 255, 255)"
        )
        folded = page.evaluate(
            """() => [...document.querySelectorAll('details > :not(summary)')]
                .filter(e => !e.checkVisibility()).length"""
        )
        assert folded == 0, name
        assert page.pdf(format="Letter").startswith(b"%PDF")
        page.emulate_media(media="screen")
