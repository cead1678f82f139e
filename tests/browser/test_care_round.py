"""A care round on a phone: along the path, a finding, its private matter to the end; nobody else sees it."""

from datetime import timedelta

from playwright.sync_api import expect

from plots.models import Matter, MatterStep
from plots.queries import plots_in_walk_order
from tests.browser.looking import check
from tests.factories import AssignmentFactory, PlotFactory

BAD, GOOD = "weeds going to seed, or spreading", "well kept"


def test_a_round_its_matter_and_its_end(phone, desktop, cast, enter):
    AssignmentFactory(plot=PlotFactory(garden=cast.garden, label="A2"), season=cast.assignment.season)
    cast.garden.rules.contact_tries = 1
    cast.garden.rules.save()
    order = plots_in_walk_order(cast.garden.plots.all(), cast.garden)
    enter(phone, cast.coordinator)
    phone.goto("/g/linden-row/care/")
    check(phone)
    phone.get_by_role("button", name="Walk today's round").click()
    for plot in order:
        expect(phone.get_by_role("heading", level=1, name=f"Plot {plot}")).to_be_visible()
        phone.get_by_role("textbox", name="Note").fill("Thistles by the path" if plot == cast.plot else "")
        if plot == cast.plot:
            check(phone)
        phone.get_by_role("button", name=BAD if plot == cast.plot else GOOD).click()
    expect(phone.get_by_text("Every plot was seen.")).to_be_visible()
    check(phone)
    phone.get_by_role("button", name="Open a matter for plot A1").click()
    expect(phone.get_by_text("A talk comes before any letter")).to_be_visible()
    check(phone)

    _step(phone, "Try to reach them", how="by telephone")
    phone.get_by_role("link", name="Give a notice").click()
    phone.get_by_label("how").select_option(label="in person")
    phone.get_by_label("The letter").fill("")
    phone.get_by_role("button", name="Keep this step").click()
    expect(phone.locator(".error", has_text="Please fill this in.")).to_be_visible()
    check(phone)
    phone.get_by_label("The letter").fill("Dear Hollis, how are you?")
    phone.get_by_role("button", name="Keep this step").click()
    expect(phone.get_by_text("They have time until")).to_be_visible()

    _until_yesterday(cast)
    phone.reload()
    expect(phone.get_by_text("The time they were given is over.")).to_be_visible()
    phone.get_by_text("They are ill or away").click()
    phone.get_by_role("button", name="Travel").click()
    expect(phone.get_by_text("They have a pause; nothing is asked of them.")).to_be_visible()
    check(phone)
    phone.get_by_role("button", name="Back again").click()
    _step(phone, "Look at the plot again", tick="The plot is in order")
    expect(phone.get_by_text("The plot was in order when somebody looked again.")).to_be_visible()
    _step(phone, "Close the matter", tick="the plot is in order")
    expect(phone.get_by_text("the plot is in order.")).to_be_visible()
    check(phone)

    enter(desktop, cast.member)
    for page in ("", "plots/", "members/", "map/"):
        desktop.goto(f"/g/linden-row/{page}")
        assert not any(word in desktop.content() for word in ("Thistles", "Care", "matter"))
    assert desktop.request.get(f"/g/linden-row/care/matters/{Matter.objects.get().pk}/").status == 403


def _step(page, name, *, how="", tick=""):
    """One step of the matter: its page, its answer, its button."""
    page.get_by_role("link", name=name).click()
    if how:
        page.get_by_label("how").select_option(label=how)
    if tick:
        page.get_by_label(tick).check()
    page.get_by_role("button", name="Keep this step").click()


def _until_yesterday(cast):
    """The time of the notice is over."""
    today = cast.garden.today()
    MatterStep.objects.update(day=today - timedelta(days=20))
    MatterStep.objects.filter(kind="notice").update(due_on=today - timedelta(days=1))
