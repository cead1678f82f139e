"""A garden of sixty plots, set up from nothing in the browser, and one whole season turn on that garden."""

import csv
from datetime import date, datetime
from io import BytesIO, StringIO
from itertools import product
from zoneinfo import ZoneInfo

import pytest
from django.test import Client
from playwright.sync_api import APIResponse, Page, expect
from pypdf import PdfReader

from crops.service import update_catalogue
from plots.first_visit import start_code
from plots.models import Assignment, Garden, User
from tests.browser.looking import check
from tests.browser.setting_up import set_up
from tests.browser.steps import follow, heading, press

MORNING = datetime(2025, 2, 10, 9, tzinfo=ZoneInfo("America/Denver"))
GARDEN = "/g/linnet-lane"
LABELS = [f"{row}{number}" for row in "ABCDEF" for number in range(1, 11)]
HELD, FREE = LABELS[:56], LABELS[56:]
GIVEN = ["Hana", "Tomás", "Ines", "Олена", "Mai", "Desmond", "Ruth"]
FAMILY = ["Okafor", "Rey", "Lindqvist", "Nguyễn", "Barros", "Haddad", "Quill", "Yazzie"]
NAMES = [f"{given} {family}" for family, given in product(FAMILY, GIVEN)]
SHARES, WRONG = "Pia Okafor", "Otto Nowhere"


class Year:
    """The garden, its coordinator's desk and everybody's phones, and a calendar to turn."""

    def __init__(self, desk: Page, phone: Page, clock, enter) -> None:
        self.desk, self.phone, self.clock, self.enter = desk, phone, clock, enter

    @property
    def garden(self) -> Garden:
        return Garden.objects.get()

    def go_to(self, day: date) -> None:
        self.clock.move_to(MORNING + (day - MORNING.date()), tick=True)

    def held(self, label: str) -> Assignment:
        return Assignment.objects.on(self.garden.today()).get(plot__label=label)

    def go(self, path: str, title: str) -> None:
        self.desk.goto(f"{GARDEN}/{path}")
        heading(self.desk, title)


@pytest.fixture
def year(desktop, phone, time_machine, enter):
    time_machine.move_to(MORNING, tick=True)
    update_catalogue()
    return Year(desktop, phone, time_machine, enter)


def roster() -> bytes:
    """A spreadsheet of who holds what, with one that shares a plot and one whose plot is not there."""
    text = StringIO()
    rows = csv.writer(text)
    rows.writerow(["Member", "E-mail", "Phone", "Household", "Plot"])
    for number, (name, label) in enumerate(zip(NAMES, HELD, strict=True)):
        email = f"member{number}@example.org" if number % 3 == 0 else ""
        rows.writerow([name, email, f"555 0{number:03}", name.split()[1] + f" {number}", label])
    rows.writerow([SHARES, "", "555 0199", "Okafor 0", HELD[0]])
    rows.writerow([WRONG, "", "555 0198", "", "Z9"])
    return text.getvalue().encode()


def take_people_over(year: Year) -> None:
    desk = year.desk
    year.go("members/", "Members")
    follow(desk, "Take people over from a spreadsheet")
    heading(desk, "People from a spreadsheet")
    file = {"name": "roster.csv", "mimeType": "text/csv", "buffer": roster()}
    desk.get_by_label("Spreadsheet, saved as CSV").set_input_files(file)
    press(desk, "Look at the rows")
    heading(desk, "People from a spreadsheet")
    expect(desk.get_by_text("57 people become members")).to_be_visible()
    expect(desk.get_by_text("1 row needs another look")).to_be_visible()
    press(desk, "Make them members")
    expect(desk.get_by_text("Nothing was kept.")).to_be_visible()
    check(desk)
    assert User.objects.count() == 1
    expect(desk.get_by_label("Give the plots for")).to_have_value(str(year.garden.seasons.get().pk))
    desk.get_by_label("Leave out the rows that need another look").check()
    press(desk, "Make them members")
    expect(desk.get_by_text("57 people are members now.")).to_be_visible()
    heading(desk, "Members")
    year.go_to(date(2025, 3, 1))
    assert year.held("A1").holder.name == NAMES[0]
    assert [person.name for person in year.held("A1").co_gardeners.all()] == [SHARES]
    assert Assignment.objects.count() == 56


def open_the_list(year: Year) -> str:
    """The public page is opened and dues are asked; three people put themselves down, one after the other."""
    year.go("rules/waiting/", "Waiting list")
    year.desk.get_by_label("anybody may sign up on the public page").check()
    press(year.desk, "Keep these rules")
    year.go("rules/season/", "Season turn and dues")
    year.desk.get_by_label("dues for a plot").fill("30")
    press(year.desk, "Keep these rules")
    places = []
    for minute, name in enumerate(("Wren Halloran", "Amadou Sy", "Салтанат Ким")):
        year.clock.move_to(MORNING.replace(month=4, minute=minute), tick=True)
        year.phone.goto("/join/linnet-lane/")
        check(year.phone)
        year.phone.get_by_label("Name", exact=True).fill(name)
        year.phone.get_by_label("Telephone").fill(f"555 02{minute:02}")
        year.clock.shift(30)  # nobody types faster
        press(year.phone, "Join the waiting list")
        expect(year.phone.get_by_role("heading", name=f"{name}, waiting")).to_be_visible()
        check(year.phone)
        places.append(year.phone.url)
    return places


def plan_the_season(year: Year) -> None:
    """A member plans, a workday is set, a notice is written: what the sheets will show."""
    holder = year.held("B3").holder
    year.enter(year.phone, holder)
    follow(year.phone, "Plan of plot B3")
    follow(year.phone, "Add a crop")
    year.phone.get_by_label("Crop or family").fill("carr")
    follow(year.phone, "Carrot")
    press(year.phone, "Add to plot B3")
    expect(year.phone.get_by_text("Carrot is in the plan.")).to_be_visible()
    desk = year.desk
    desk.goto(f"{GARDEN}/workdays/new/")
    desk.get_by_label("Name", exact=True).fill("Paths and edges")
    desk.get_by_label("Day", exact=True).fill("2025-05-10")
    desk.get_by_label("Rain date").fill("2025-05-17")
    desk.get_by_label("Task", exact=True).first.fill("Wood chips")
    press(desk, "Keep the workday")
    heading(desk, "Paths and edges")
    year.phone.goto(f"{GARDEN}/workdays/")
    follow(year.phone, "Paths and edges")
    press(year.phone, "I do this: Wood chips")
    desk.goto(f"{GARDEN}/notices/new/")
    desk.get_by_label("Subject").fill("Water is on")
    desk.get_by_label("Text").fill("The taps run from Saturday. Please mind the hose by row C.")
    press(desk, "Keep, then look at it")
    check(desk)


def ask_who_stays(year: Year) -> None:
    """On 1 October: the next season gets its dates, and everybody is asked."""
    year.go_to(date(2025, 10, 1))
    desk = year.desk
    desk.goto(GARDEN)
    follow(desk, "Season turn")
    heading(desk, "Season turn")
    follow(desk, "Give the next season its dates")
    expect(desk.get_by_label("Name")).to_have_value("2026")
    press(desk, "Keep the season")
    year.go("turn/", "Season turn")
    follow(desk, "Ask everybody who holds a plot")
    desk.get_by_label("answers by").fill("2025-10-25")
    desk.get_by_label("Days after that").fill("7")
    press(desk, "Ask")
    expect(desk.get_by_text("Everybody who holds a plot finds the question")).to_be_visible()
    heading(desk, "Renewals for 2026")


def answer(year: Year, label: str, wish: str, note: str = "") -> None:
    """A holder on the phone."""
    year.enter(year.phone, year.held(label).holder)
    year.phone.goto(GARDEN)
    follow(year.phone, "Your season")
    heading(year.phone, "Your season")
    year.phone.get_by_label(wish, exact=True).check()
    year.phone.get_by_label("Anything to know").fill(note)
    press(year.phone, f"Answer for plot {label}")
    expect(year.phone.get_by_text(f"Your answer for plot {label} is kept.")).to_be_visible()


def everybody_answers(year: Year) -> None:
    """Three on the phone, one by telephone, 48 unwatched; the last four say nothing."""
    answer(year, "A1", "keep this plot")
    answer(year, "A2", "give this plot up")
    answer(year, "A3", "change to another plot; keep this one until then", "nearer to the tap")
    for label in HELD[4:52]:
        held = year.held(label)
        member = Client()
        member.force_login(held.holder)
        sent = {"plot": held.pk, f"{held.pk}-wish": "keep", f"{held.pk}-note": ""}
        member.post(f"{GARDEN}/mine/", sent)
    year.go("turn/", "Season turn")
    follow(year.desk, "Answers and decisions")
    heading(year.desk, "Renewals for 2026")
    follow(year.desk, "Answer for A4")
    heading(year.desk, "Answer for plot A4")
    year.desk.get_by_label("keep this plot", exact=True).check()
    year.desk.get_by_label("Anything to know").fill("by telephone")
    press(year.desk, "Keep the answer")
    year.go("turn/", "Season turn")
    expect(year.desk.get_by_text("52 of 56 have answered")).to_be_visible()
    expect(year.desk.get_by_text("4 households still have time")).to_be_visible()


def decide(year: Year) -> None:
    """After the last day: three silent plots come free, one stays for a reason, the rest go on."""
    year.go_to(date(2025, 11, 2))
    desk = year.desk
    year.go("turn/", "Season turn")
    follow(desk, "5 plots proposed as free")
    check(desk)
    expect(desk.get_by_label("Plot A2", exact=True)).to_be_checked()
    desk.get_by_label("Plot F6", exact=True).uncheck()
    press(desk, "Free the ticked plots")
    expect(desk.get_by_text("4 plots are decided.")).to_be_visible()
    check(desk)
    desk.get_by_label("Plot F6", exact=True).check()
    press(desk, "Renew the ticked plots")
    expect(desk.get_by_text("Say why it is to be otherwise.")).to_be_visible()
    expect(desk.get_by_label("Plot F6", exact=True)).to_be_checked()
    desk.get_by_label("Why").fill("reached at last, wants to stay")
    press(desk, "Renew the ticked plots")
    expect(desk.get_by_text("1 plot is decided.")).to_be_visible()
    year.go("turn/", "Season turn")
    follow(desk, "51 plots proposed to renew")
    check(desk)
    press(desk, "Renew the ticked plots")
    expect(desk.get_by_text("51 plots are decided.")).to_be_visible()


def offer_down_the_list(year: Year, places: list[str]) -> None:
    """The mover moves; the first in line says no on the phone, the second yes, and so holds a plot."""
    desk, phone = year.desk, year.phone
    year.go("turn/", "Season turn")
    follow(desk, "Who could have them")
    heading(desk, "Free plots in 2026")
    press(desk, f"Move {NAMES[2]} to A2")
    check(desk)
    follow(desk, "Offer A3")
    heading(desk, "Offer plot A3, 2026")
    expect(desk.get_by_text("Wren Halloran is next.")).to_be_visible()
    press(desk, "Make the offer")
    heading(desk, "Plot A3 offered to Wren Halloran")
    press(desk, "Told them by telephone")
    check(desk)
    phone.goto(places[0])
    check(phone)
    press(phone, "No, thank you")
    check(phone)
    year.go("waiting/", "Waiting list")
    follow(desk, "Offer A3 to Amadou Sy")
    press(desk, "Make the offer")
    press(desk, "Told them in person")
    phone.goto(places[1])
    press(phone, "Yes, I take plot A3")
    expect(phone.get_by_text("Plot A3 is yours from")).to_be_visible()
    check(phone)
    year.go("waiting/", "Waiting list")
    expect(desk.get_by_text("Салтанат Ким").first).to_be_visible()


def agree_and_pay(year: Year) -> None:
    """An agreement is written and put in force, signed on a phone and on paper; dues are drawn up."""
    desk, phone = year.desk, year.phone
    year.go("agreement/versions/", "Versions of the agreement")
    press(desk, "Write the agreement")
    desk.get_by_label("Language").select_option("en")
    desk.get_by_label("Title").fill("Our agreement")
    desk.get_by_label("Text").fill("We water by hand.\n\nWe keep the paths.")
    press(desk, "Keep the text")
    press(desk, "Put it in force today")
    check(desk)
    year.enter(phone, year.held("A1").holder)
    phone.goto(f"{GARDEN}/agreement/")
    phone.get_by_label("I have read this and agree to it.").check()
    phone.get_by_role("button", name="Sign", exact=True).click()
    expect(phone.get_by_text("You signed version 1")).to_be_visible()
    year.go("agreement/signatures/?state=unsigned", "Signatures")
    follow(desk, f"{SHARES} signed on paper")
    press(desk, "Mark as signed")
    expect(desk.get_by_text(f"{SHARES} is marked as having signed on paper.")).to_be_visible()
    year.go("dues/", "Dues")
    press(desk, "Draw up the dues of 2026")
    heading(desk, "Dues")
    press(desk, f"Paid: {NAMES[0]}, Plot A1")
    press(desk, f"Waive: {NAMES[3]}, Plot A4")
    expect(desk.get_by_text("paid $30.00, waived $30.00.")).to_be_visible()
    year.go("turn/", "Season turn")
    follow(desk, "Answers and decisions")
    press(desk, "Close the renewals")
    expect(desk.get_by_text("The renewals are closed.")).to_be_visible()


def the_next_season_begins(year: Year) -> None:
    """On its first day everybody holds what was decided, and nobody what was freed."""
    before = {held.plot.label: held.holder.name for held in Assignment.objects.on(date(2025, 11, 30))}
    year.go_to(date(2026, 3, 1))
    now = {held.plot.label: held.holder.name for held in Assignment.objects.on(date(2026, 3, 1))}
    assert before == dict(zip(HELD, NAMES, strict=True))
    freed, moved = {"F3", "F4", "F5"}, {"A2": NAMES[2], "A3": "Amadou Sy"}
    assert now == {label: name for label, name in before.items() if label not in freed} | moved
    newcomer = User.objects.get(name="Amadou Sy")
    year.enter(year.phone, newcomer)
    year.phone.goto(GARDEN)
    heading(year.phone, "Linnet Lane")
    expect(year.phone.get_by_role("link", name="Plot A3: plan and calendar")).to_be_visible()
    year.enter(year.desk, User.objects.get(name="Marisol Núñez"))  # signed in for a season, not for two
    year.go("plots/", "Plots")
    year.go("plots/" + str(year.held("F6").plot_id) + "/", "Plot F6")
    expect(year.desk.get_by_text("reached at last, wants to stay").first).to_be_visible()


def spring_sheets(year: Year) -> dict[str, list[str]]:
    """The sheets of a season that begins, with words that must stand on each."""
    garden, plot = year.garden, year.held("B3").plot_id
    notice, workday = garden.notices.get().pk, garden.workdays.get().pk
    member = garden.memberships.get(user__name=NAMES[5]).pk
    return {
        "print/map.pdf": ["Linnet Lane", *LABELS],
        f"print/calendar.pdf?plots={plot}&year=2025": ["Carrot", "Plot B3", NAMES[12]],
        f"print/sign-in-sheet.pdf?workday={workday}": ["Paths and edges", "Wood chips", NAMES[12]],
        f"print/gate-notice.pdf?notice={notice}": ["Water is on", "mind the hose by row C"],
        "print/dates.pdf": ["Dates of 2025", "Paths and edges"],
        "print/letters.pdf": ["Nobody who asked for the letter needs it on paper."],
        "print/emergency.pdf": ["Emergency sheet", "Members who named nobody: 58."],
        "print/invitation-cards/": ["Cards to come in with", NAMES[0], SHARES, NAMES[-1]],
        f"members/{member}/card.pdf": [NAMES[5], "Works once"],
    }


def winter_sheets(year: Year) -> dict[str, list[str]]:
    """Those of a turn that is done."""
    text = year.garden.agreements.get().texts.get().pk
    return {
        "print/hand-over.pdf": ["Season 2026", "Amadou Sy", *NAMES[2:52], "57 members have not signed"],
        f"print/agreement.pdf?text={text}": ["Our agreement", "We water by hand.", "Version 1"],
        "print/agreements-to-sign.pdf": ["Our agreement", "Amadou Sy", *NAMES[1:56]],
    }


def fetched(desk: Page, address: str) -> APIResponse:
    """A sheet; cards are made anew, each with its links, and so are sent for."""
    if not address.endswith(("card.pdf", "cards/")):
        return desk.request.get(f"{GARDEN}/{address}")
    [token] = [cookie["value"] for cookie in desk.context.cookies() if cookie["name"] == "csrf"]
    return desk.request.post(f"{GARDEN}/{address}", form={"csrfmiddlewaretoken": token, "paper": "letter"})


def read_back(year: Year, sheets: dict[str, list[str]], folder) -> None:
    """Each sheet is fetched, kept to be looked at, and has its words."""
    for address, words in sheets.items():
        answer = fetched(year.desk, address)
        assert answer.status == 200, address
        (folder / address.replace("/", "-")).write_bytes(answer.body())
        pages = PdfReader(BytesIO(answer.body())).pages
        text = " ".join(" ".join(page.extract_text() for page in pages).split())
        assert [word for word in words if word not in text] == [], address


def test_a_garden_is_set_up_and_its_season_turned(year, live_server, settings, tmp_path):
    set_up(year.desk, start_code(settings.SECRET_KEY))
    take_people_over(year)
    places = open_the_list(year)
    plan_the_season(year)
    read_back(year, spring_sheets(year), tmp_path)
    ask_who_stays(year)
    everybody_answers(year)
    decide(year)
    offer_down_the_list(year, places)
    agree_and_pay(year)
    the_next_season_begins(year)
    read_back(year, winter_sheets(year), tmp_path)
