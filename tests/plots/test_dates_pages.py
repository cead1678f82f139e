"""The garden's dates on their page and in the feed that anybody may read."""

from datetime import date, datetime, time
from zoneinfo import ZoneInfo

import pytest
from django.test import Client
from django.urls import reverse
from icalendar import Calendar

from plots import queries, service
from plots.dates import Certainty
from plots.models import GardenDate, GardenRules, Held, Workday

pytestmark = pytest.mark.django_db
FIRST, LAST = date(2024, 1, 1), date(2024, 12, 31)


@pytest.fixture(autouse=True)
def april(time_machine, cast):
    time_machine.move_to("2024-04-20T18:00Z", tick=False)
    GardenRules.objects.filter(garden=cast.garden).update(opens="04-01", water_on="05-01")
    cast.garden.refresh_from_db()


@pytest.fixture
def workday(cast) -> Workday:
    day = Workday(
        garden=cast.garden, name="Paths", day=date(2024, 5, 4), rain_day=date(2024, 5, 11), note="Ask Cora"
    )
    return service.keep_workday(workday=day, by=cast.coordinator)


def url(name, cast, **more):
    return reverse(f"plots:{name}", kwargs={"slug": cast.garden.slug, **more})


def written(cast, **values):
    return service.keep_date(row=GardenDate(garden=cast.garden, **values), by=cast.coordinator)


def titles(cast, **options):
    days = queries.dates_of(cast.garden, FIRST, LAST, **options)
    return [(one.day.isoformat()[5:], one.title) for one in days if one.kind != "season"]


def test_dates_come_from_the_rules_workdays_and_what_is_written_down(cast, workday):
    written(cast, kind="meeting", title="Members' meeting", day=date(2024, 4, 27))
    assert titles(cast) == [
        ("04-01", "The garden opens"),
        ("04-27", "Members' meeting"),
        ("05-01", "Water is turned on"),
        ("05-04", "Workday: Paths"),
        ("05-11", "Rain date of the workday: Paths"),
    ]


def test_a_date_written_down_stands_in_place_of_the_rules(cast):
    row = written(cast, kind="water_on", day=date(2024, 5, 15))
    assert titles(cast)[1:] == [("05-15", "Water is turned on")]
    service.remove_date(row=row, by=cast.coordinator)
    assert titles(cast)[1:] == [("05-01", "Water is turned on")]


@pytest.mark.parametrize(
    ("held", "certainties"),
    [
        (Held.DAY, [Certainty.FIRM, Certainty.IF_RAIN]),
        (Held.RAIN, [Certainty.OFF, Certainty.FIRM]),
        (Held.OFF, [Certainty.OFF, Certainty.OFF]),
    ],
)
def test_the_rain_date_is_in_doubt_until_somebody_decides(cast, workday, held, certainties):
    service.hold_workday(workday=workday, held=held, by=cast.coordinator)
    days = queries.dates_of(cast.garden, FIRST, LAST)
    assert [one.certainty for one in days if one.kind == "workday"] == certainties


@pytest.mark.parametrize("rows", [1, 3])
def test_the_page_costs_the_same_with_more_dates(cast, as_user, rows, django_assert_num_queries):
    for n in range(rows):
        written(cast, kind="other", title=f"Fair {n}", day=date(2024, 6, 1 + n))
    member = as_user(cast.member)
    # session, person, membership and garden, rules; dates, seasons, renewals and workdays of the year and of
    # the fortnight; powers; dates of the year before
    with django_assert_num_queries(14):
        page = member.get(url("dates", cast))
    assert sum("Fair" in one.title for one in page.context["shown"].rows) == rows


def test_the_page_says_what_is_due_within_a_fortnight(cast, as_user, workday):
    page = as_user(cast.member).get(url("dates", cast))
    assert [one.title for one in page.context["soon"]] == ["Water is turned on", "Workday: Paths"]


def test_a_date_is_written_changed_removed_and_put_back(cast, as_user):
    run = as_user(cast.coordinator)
    wrong = run.post(url("date_new", cast), {"kind": "meeting", "title": "", "day": "2024-06-01"})
    assert (wrong.status_code, GardenDate.objects.count()) == (422, 0)
    assert "Say what the date is about." in wrong.content.decode()
    run.post(url("date_new", cast), {"kind": "meeting", "title": "AGM", "day": "2024-06-01", "public": "on"})
    row = GardenDate.objects.get()
    run.post(url("date_edit", cast, pk=row.pk), {"kind": "meeting", "title": "AGM", "day": "2024-06-08"})
    row.refresh_from_db()
    assert (row.day, row.public) == (date(2024, 6, 8), False)
    run.post(url("date_remove", cast, pk=row.pk))
    assert ("06-08", "AGM") not in titles(cast)
    run.post(url("date_restore", cast, pk=row.pk))
    assert ("06-08", "AGM") in titles(cast)
    kept = row.garden.changes.filter(about_model="plots.gardendate").order_by("pk")
    assert [one.what for one in kept] == ["date-made", "date-changed", "date-removed", "date-restored"]


def test_the_dates_of_last_year_are_taken_over_once(cast, as_user):
    written(cast, kind="meeting", title="AGM", day=date(2024, 6, 1))  # a Saturday
    written(cast, kind="deadline", title="Soil samples", day=date(2024, 9, 30))
    for _press in range(2):
        as_user(cast.coordinator).post(url("dates_copy", cast, year=2025))
    copies = GardenDate.objects.filter(day__year=2025).order_by("day")
    assert [(one.title, one.day) for one in copies] == [
        ("AGM", date(2025, 5, 31)),
        ("Soil samples", date(2025, 9, 30)),
    ]


def read(cast):
    answer = Client().get(url("dates_ics", cast))
    assert answer.status_code == 200
    assert answer.headers["Content-Type"] == "text/calendar; charset=utf-8"
    return answer


def events_of(cast):
    return {str(event["uid"]): event for event in Calendar.from_ical(read(cast).content).walk("VEVENT")}


def test_anybody_reads_the_feed_with_hours_on_the_gardens_clock(cast, workday):
    events = events_of(cast)
    opens = events["opens-2024-linden-row@127.0.0.1"]
    work, rain = (events[f"workday-{workday.pk}{suffix}-linden-row@127.0.0.1"] for suffix in ("", "-rain"))
    assert (opens.decoded("dtstart"), opens.decoded("dtend")) == (date(2024, 4, 1), date(2024, 4, 2))
    assert str(opens["summary"]) == "The garden opens"
    zone = ZoneInfo("America/Denver")
    assert work.decoded("dtstart") == datetime(2024, 5, 4, 9, tzinfo=zone)
    assert work.decoded("dtend") == datetime(2024, 5, 4, 12, tzinfo=zone)
    assert str(rain["status"]) == "TENTATIVE"


def test_a_moved_workday_keeps_its_events_and_counts_as_newer(cast, workday, time_machine):
    before = events_of(cast)
    time_machine.move_to("2024-05-04T13:00Z", tick=False)
    service.hold_workday(workday=workday, held=Held.RAIN, by=cast.coordinator)
    after = events_of(cast)
    day, rain = (f"workday-{workday.pk}{suffix}-linden-row@127.0.0.1" for suffix in ("", "-rain"))
    assert (str(after[day]["status"]), str(after[rain]["status"])) == ("CANCELLED", "CONFIRMED")
    assert after[rain]["sequence"] > before[rain]["sequence"]


def test_the_feed_names_nobody_and_keeps_what_is_not_public(cast, workday):
    written(
        cast, kind="meeting", title="Committee", day=date(2024, 5, 2), public=False, note="Cora brings keys"
    )
    service.sign_up(task=workday.tasks.get(), person=cast.holder, by=cast.holder)
    text = read(cast).content.decode()
    for name in ("Hollis", "Cora", "Committee", "Ask Cora"):
        assert name not in text


def test_a_garden_may_keep_its_dates_to_itself(cast):
    GardenRules.objects.filter(garden=cast.garden).update(dates_public=False)
    assert Client().get(url("dates_ics", cast)).status_code == 404


def test_the_feed_is_not_sent_again_unchanged(cast):
    tag = read(cast).headers["ETag"]
    assert Client().get(url("dates_ics", cast), headers={"If-None-Match": tag}).status_code == 304


def test_a_meeting_has_its_hour(cast):
    written(cast, kind="meeting", title="AGM", day=date(2024, 6, 1), starts_at=time(14))
    (event,) = [one for one in events_of(cast).values() if str(one["summary"]) == "AGM"]
    assert event.decoded("dtstart").hour == 14
