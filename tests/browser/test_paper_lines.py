"""Twenty logs typed in from paper with the keyboard alone, and without a script."""

from datetime import timedelta

from playwright.sync_api import expect

from schedules.models import WorkLog
from tests.browser.looking import check
from tests.factories import AssignmentFactory, CropFactory, PlantingFactory

PAGE = "/g/linden-row/log/from-paper/"


def type_keys(page, *keys: str) -> None:
    """Words are typed letter by letter, names of keys pressed."""
    for key in keys:
        if key in {"Tab", "Enter", "Shift+Enter", "Shift+Tab"}:
            page.keyboard.press(key)
        else:
            page.keyboard.type(key)


def test_twenty_lines_are_typed_kept_and_corrected_without_the_mouse(desktop, cast, enter):
    today = cast.garden.today()
    carrot = CropFactory(name="Carrot", slug="carrot")
    PlantingFactory(plot=cast.plot, crop=carrot, year=today.year)
    AssignmentFactory(plot__garden=cast.garden, plot__label="B2", season=cast.assignment.season)
    enter(desktop, cast.coordinator)
    desktop.goto(PAGE)
    day = (today - timedelta(days=1)).isoformat()
    # The first field is ready to type into; Enter goes down to where the line was begun.
    type_keys(desktop, "a1", "Tab", day, "Tab", "w", "Tab", "Tab", "3 cans", "Tab", "hol", "Enter")
    expect(desktop.locator("#line-2-day")).to_have_attribute("placeholder", day)
    expect(desktop.locator("#line-2-person")).to_have_attribute("placeholder", "hol")
    for _line in range(8):
        type_keys(desktop, "Tab", "Tab", "p", "Tab", "carr", "Tab", "2 lb", "Enter")
    type_keys(desktop, "b2", "Tab", "Tab", "we", "Enter")
    for _line in range(9):
        type_keys(desktop, "Tab", "Tab", "su", "Enter")
    type_keys(desktop, "Tab", "Tab", "xx", "Enter")  # a slip in the last line
    expect(desktop.get_by_role("button", name="Keep the logs")).to_be_focused()
    check(desktop)
    type_keys(desktop, "Enter")
    expect(desktop.get_by_text("Nothing is kept yet: 1 line needs another look.")).to_be_visible()
    expect(desktop.get_by_text("Picked Carrot, plot A1, 2 lb")).to_have_count(8)
    assert not WorkLog.objects.exists()
    check(desktop)
    # The wrong field is ready to be typed over.
    expect(desktop.locator("#line-20-work")).to_be_focused()
    desktop.keyboard.press("Control+A")
    type_keys(desktop, "th", "Tab", "Shift+Tab")
    desktop.keyboard.press("Control+A")
    type_keys(desktop, "mul", "Enter", "Enter")
    expect(desktop.get_by_text("20 logs are kept.")).to_be_visible()
    assert WorkLog.objects.filter(from_paper=True, made_by=cast.coordinator).count() == 20
    assert WorkLog.objects.filter(plot=cast.plot, person=cast.holder, work="harvest").count() == 8


def test_on_a_phone_and_without_a_script_lines_are_read_and_kept(new_page, cast, enter):
    page = new_page(viewport={"width": 390, "height": 844}, java_script_enabled=False)
    enter(page, cast.coordinator)
    page.goto(PAGE)
    page.get_by_label("Line 1: Plot").fill("a1")
    page.get_by_label("Line 1: Day").fill(cast.garden.today().isoformat())
    page.get_by_label("Line 1: What was done").fill("we")
    page.keyboard.press("Enter")  # without a script Enter sends: it only reads
    expect(page.get_by_text("Weeded plot A1")).to_be_visible()
    assert not WorkLog.objects.exists()
    page.get_by_role("button", name="Keep the logs").click()
    expect(page.get_by_text("1 log is kept.")).to_be_visible()
    assert WorkLog.objects.get().person == cast.holder
