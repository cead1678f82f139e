import pytest

from plots.models import PlotKind, SiteFeature
from tests.browser.looking import check
from tests.factories import PlotFactory

pytestmark = pytest.mark.django_db(transaction=True)

FOOT = 0.3048


@pytest.fixture
def drawn(cast):
    """Plot A1 in the corner, a communal bed beside it, and a tap."""
    cast.plot.left_m, cast.plot.top_m = 0, 0
    cast.plot.save()
    PlotFactory(garden=cast.garden, label="Herbs", kind=PlotKind.COMMUNAL, left_m=20 * FOOT, top_m=0)
    SiteFeature.objects.create(
        garden=cast.garden, kind="water", label="tap", left_m=14, top_m=1, width_m=0.6, length_m=0.6
    )
    return cast


def place(plot):
    plot.refresh_from_db()
    return round(plot.left_m / FOOT, 2), round(plot.top_m / FOOT, 2)


def test_the_map_is_read_on_phone_and_desk(page, enter, drawn):
    enter(page, drawn.coordinator)
    for path in ("map/", "map/?near=4", "map/rows/", "map/walk/", "map/site/", "map/things/new/", "plots/"):
        page.goto(f"/g/{drawn.garden.slug}/{path}")
        check(page)
    page.goto(f"/g/{drawn.garden.slug}/map/")
    page.locator("#map").get_by_role("link", name="Plot A1").click()
    assert page.get_by_role("heading", level=1).inner_text() == "Plot A1"


def test_a_plot_is_dragged_and_kept_only_by_the_button(desktop, enter, drawn):
    enter(desktop, drawn.coordinator)
    desktop.goto(f"/g/{drawn.garden.slug}/map/arrange/")
    check(desktop)
    box = desktop.get_by_role("button", name="Plot A1").bounding_box()
    middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    desktop.mouse.move(*middle)
    desktop.mouse.down()
    desktop.mouse.move(middle[0] + box["width"], middle[1], steps=4)
    desktop.mouse.up()
    assert "from the left" in desktop.get_by_role("status").last.inner_text()
    assert place(drawn.plot) == (0, 0)
    desktop.get_by_role("button", name="Keep the new places").click()
    desktop.get_by_text("1 thing has moved.").wait_for()
    left, top = place(drawn.plot)
    assert (9 <= left <= 11, top) == (True, 0)


def test_arrow_keys_move_a_plot_and_escape_puts_it_back(desktop, enter, drawn):
    enter(desktop, drawn.coordinator)
    desktop.goto(f"/g/{drawn.garden.slug}/map/arrange/")
    plot = desktop.get_by_role("button", name="Plot A1")
    plot.focus()
    plot.press("ArrowRight")
    plot.press("Shift+ArrowDown")
    herbs = desktop.get_by_role("button", name="Plot Herbs")
    herbs.focus()
    herbs.press("ArrowRight")
    herbs.press("Escape")
    desktop.get_by_role("button", name="Keep the new places").click()
    desktop.get_by_text("1 thing has moved.").wait_for()
    assert place(drawn.plot) == (0.5, 5)


def test_a_touch_scrolls_the_map_and_moves_nothing(phone, enter, drawn):
    enter(phone, drawn.coordinator)
    phone.goto(f"/g/{drawn.garden.slug}/map/arrange/")
    check(phone)
    phone.get_by_role("button", name="Plot A1").tap()
    phone.get_by_role("button", name="Keep the new places").click()
    phone.get_by_text("0 things have moved.").wait_for()
    assert place(drawn.plot) == (0, 0)
