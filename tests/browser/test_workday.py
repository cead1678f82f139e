"""A workday from its plan to the hours on it: a coordinator's desk, a member's phone, a sheet of paper."""

from datetime import timedelta

from playwright.sync_api import expect

from plots.models import HoursDone, Workday
from tests.browser.looking import check


def test_a_workday_is_planned_signed_up_for_and_typed_in(desktop, phone, cast, enter):
    today = cast.garden.today()
    enter(desktop, cast.coordinator)
    desktop.goto("/g/linden-row/workdays/new/")
    desktop.get_by_label("Name", exact=True).fill("Paths")
    desktop.get_by_label("Day", exact=True).fill((today + timedelta(days=3)).isoformat())
    desktop.get_by_label("Rain date").fill((today + timedelta(days=10)).isoformat())
    desktop.get_by_label("Task", exact=True).first.fill("Edges")
    check(desktop)
    desktop.get_by_role("button", name="Keep the workday").click()
    expect(desktop.get_by_role("heading", name="Paths")).to_be_visible()
    check(desktop)

    enter(phone, cast.holder)
    phone.goto("/g/linden-row/")
    phone.get_by_role("link", name="Workdays").click()
    phone.get_by_role("link", name="Paths").click()
    phone.get_by_role("button", name="I do this: Edges").click()
    expect(phone.get_by_role("button", name="Withdraw from Edges")).to_be_visible()
    check(phone)

    Workday.objects.update(day=today)  # the day has come
    workday = Workday.objects.get()
    desktop.goto(f"/g/linden-row/workdays/{workday.pk}/sheet/")
    desktop.get_by_label("Hollis").focus()
    for key in (
        "x",
        "Tab",
        "m",
        "a",
        "r",
        "Space",
        "9",
        "-",
        "1",
        "1",
        "Enter",
        "z",
        "o",
        "e",
        "Tab",
        "Enter",
    ):
        desktop.keyboard.press(key)
    expect(desktop.get_by_text("Line 2, “zoe”: no member is called so.")).to_be_visible()
    check(desktop)
    assert not HoursDone.objects.exists()
    desktop.get_by_label("Others who came").fill("mar 9-11\n+ zoe")
    desktop.get_by_role("button", name="Keep the hours").click()
    expect(desktop.get_by_text("3 people came, 8 h in all.")).to_be_visible()

    phone.goto("/g/linden-row/hours/own/")
    check(phone)
    assert list(HoursDone.objects.filter(person=cast.holder).values_list("minutes", flat=True)) == [180]
