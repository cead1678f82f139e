"""Summaries of a garden, a plot and a member, of rows as they are kept."""

from datetime import UTC, date, datetime, timedelta
from io import BytesIO

import pytest
from django.core.files.base import ContentFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone
from PIL import Image

from crops.models import Workshop
from plots.models import HoursDone, User
from plots.service.forgetting import forget_person
from plots.service.history import record
from schedules.models import GardenReading, LogPhoto, WorkLog
from schedules.plan_done import Change
from schedules.reports.document import Chart, Picture
from schedules.reports.season import FrostChart
from schedules.service.print_table.summary import KINDS
from schedules.service.print_table.table import Asked
from schedules.service.summary import garden_summary, member_summary, plot_summary
from schedules.summary import Figure, Period
from schedules.work import Work
from tests.factories import AssignmentFactory, MembershipFactory, PlotFactory
from tests.schedules.samples import carrot, planted, set_mean_frost

YEAR = Period(date(2026, 1, 1), date(2026, 12, 31))
TODAY = date(2026, 12, 1)


def logged(plot, person, work, day, **more):
    return WorkLog.objects.create(
        garden=plot.garden, plot=plot, person=person, made_by=person, work=work, day=day, **more
    )


@pytest.fixture
def garden(db):
    """One plot that changed hands on 1 July, a carrot sown before and one after."""
    plot = PlotFactory(label="7")
    garden = plot.garden
    set_mean_frost(garden)
    first = AssignmentFactory(plot=plot, began_on=date(2026, 1, 1), ended_on=date(2026, 6, 30))
    second = AssignmentFactory(plot=plot, season=first.season, began_on=date(2026, 7, 1))
    crop = carrot()
    spring = planted(plot, crop, row_length_m=2.0)
    autumn = planted(plot, crop, turn="autumn")
    logged(plot, first.holder, Work.SOW, date(2026, 4, 30), planting=spring)
    logged(
        plot, first.holder, Work.PICK, date(2026, 6, 29), planting=spring, grams=500.0, amount=500, unit="g"
    )
    logged(plot, second.holder, Work.SOW, date(2026, 7, 20), planting=autumn)
    logged(plot, second.holder, Work.WATER, date(2026, 7, 21), litres=20.0, amount=20, unit="L")
    HoursDone.objects.create(garden=garden, person=first.holder, day=date(2026, 5, 2), minutes=60)
    HoursDone.objects.create(garden=garden, person=second.holder, day=date(2026, 9, 2), minutes=30)
    garden.first, garden.second, garden.plot = first.holder, second.holder, plot
    return garden


def test_a_garden_counts_everybody(garden):
    for day, attended in ((date(2026, 3, 7), 12), (date(2026, 5, 9), None), (date(2026, 12, 19), None)):
        Workshop.objects.create(garden=garden, title="Frost", on=day, attended=attended, expected=15)
    found = garden_summary(garden, YEAR, TODAY)
    assert found.figures[Figure.HOURS] == 90
    assert (found.figures[Figure.HELD], found.figures[Figure.CHANGED], found.figures[Figure.MEMBERS]) == (
        1,
        1,
        2,
    )
    assert (found.figures[Figure.PICKED], found.figures[Figure.WATER]) == (500.0, 20.0)
    assert found.figures[Figure.ATTENDED] == 12
    assert len(found.workshops) == 2  # not the one to come
    assert [one.grams_a_metre for one in found.yields] == [250.0]
    assert found.weighed_m2 == 18.0
    assert (found.plan.due, found.plan.begun, found.plan.picked) == (2, 2, 1)
    assert [one.days_off for one in found.sowings][:1] == [0]


def test_dues_and_hours_are_told_to_who_is_trusted_with_them(garden):
    """As on the page of figures, where hours are for who runs the workdays."""
    helper = MembershipFactory(garden=garden, role="helper")
    season, more = garden.seasons.first(), {"kind": "other", "what": "key", "due_on": YEAR.first}
    for person, paid_on in ((garden.first, date(2026, 3, 1)), (garden.second, None)):
        garden.dues.create(season=season, person=person, amount="12.50", paid_on=paid_on, **more)
    assert garden_summary(garden, YEAR, TODAY).figures[Figure.DUES] == 12.5
    choices = {"since": YEAR.first, "until": YEAR.last}
    told = []
    for user in (None, helper.user):
        asked = Asked(garden=garden, user=user, today=TODAY, paper="a4", language="en", choices=choices)
        document = KINDS[0].make(asked).document
        rows = document.tables[0][1].rows
        told += [row[1] for row in rows if row[0].startswith(("Dues", "Hours", "Members who"))]
    assert told == ["1.5", "2", "12.50"]
    assert "Not on this copy, as whoever made it is not trusted with it: Hours" in " ".join(document.words())


def test_a_member_has_their_own_days_alone(garden):
    first = member_summary(garden, garden.first, YEAR, TODAY)
    second = member_summary(garden, garden.second, YEAR, TODAY)
    assert (first.figures[Figure.PICKED], first.figures[Figure.WATER], first.figures[Figure.HOURS]) == (
        500,
        None,
        60,
    )
    assert (second.figures[Figure.PICKED], second.figures[Figure.WATER], second.figures[Figure.HOURS]) == (
        None,
        20,
        30,
    )
    assert [one.begun for one in first.sowings] == [date(2026, 4, 30)]
    assert [one.begun for one in second.sowings] == [date(2026, 7, 20)]
    plot = plot_summary(garden.plot, garden.second, YEAR, TODAY)
    assert (plot.figures[Figure.PICKED], len(plot.sowings)) == (500.0, 2)


def test_to_whom_others_gave_is_not_told_to_who_comes_after(garden):
    given = {"given_away": True, "amount": 5, "unit": "pcs", "pieces": 5}
    logged(garden.plot, garden.first, Work.PICK, date(2026, 6, 1), given_to="Aunt Rosa", **given)
    logged(garden.plot, garden.second, Work.PICK, date(2026, 8, 1), given_to="Pantry", **given)
    for user, told in ((garden.second, ["Pantry", ""]), (None, ["Aunt Rosa", "Pantry"])):
        found = plot_summary(garden.plot, user, YEAR, TODAY)
        assert [gift.whom for gift in found.gifts] == told
    assert [gift.whom for gift in member_summary(garden, garden.second, YEAR, TODAY).gifts] == ["Pantry"]


def test_anothers_year_is_for_who_sees_hours_and_the_roster(garden):
    helper = MembershipFactory(garden=garden, role="helper", powers=["people"])
    member_year = KINDS[-1]
    assert not member_year.others(helper.user, garden)
    helper.powers = ["people", "workdays"]
    helper.save()
    assert member_year.others(helper.user, garden)


def test_who_was_forgotten_still_counts_without_a_name(garden):
    person = garden.first
    User.objects.filter(pk=person.pk).update(name="Ada Fenwick", language="es")
    log = WorkLog.objects.get(work=Work.PICK)
    WorkLog.objects.filter(pk=log.pk).update(given_away=True, given_to="Ada Fenwick's sister")
    assert garden_summary(garden, YEAR, TODAY).languages == {"es": 1}
    person.memberships.all().delete()
    forget_person(garden=garden, person=User.objects.get(pk=person.pk), by=garden.second)
    found = garden_summary(garden, YEAR, TODAY)
    assert (found.figures[Figure.MEMBERS], found.figures[Figure.HOURS]) == (2, 90)
    assert [gift.whom for gift in found.gifts] == ["a former member's sister"]
    assert found.languages == {}


def test_a_season_that_follows_another_is_no_second_plan(garden):
    """A window from April to June, never begun, while the holder's season was renewed on 1 May."""
    plot = PlotFactory(garden=garden)
    held = AssignmentFactory(plot=plot, began_on=date(2025, 5, 1), ended_on=date(2026, 4, 30))
    AssignmentFactory(plot=plot, season=held.season, holder=held.holder, began_on=date(2026, 5, 1))
    planted(plot, carrot(slug="another-carrot"))
    assert len(member_summary(garden, held.holder, YEAR, TODAY).sowings) == 1
    left = AssignmentFactory(plot=PlotFactory(garden=garden), began_on=date(2026, 1, 1))
    left.ended_on = date(2026, 4, 20)
    left.save()
    planted(left.plot, carrot(slug="third-carrot"))
    assert member_summary(garden, left.holder, YEAR, TODAY).sowings == []


def test_what_was_taken_back_or_left_half_told_counts_nowhere(garden):
    at = timezone.now()
    pick = {"amount": 900, "unit": "g", "grams": 900.0}
    logged(garden.plot, garden.first, Work.PICK, date(2026, 6, 2), removed_at=at, **pick)
    hours = {"garden": garden, "day": date(2026, 5, 2), "minutes": 500}
    HoursDone.objects.create(person=garden.first, removed_at=at, **hours)
    Workshop.objects.create(garden=garden, title="Off", on=date(2026, 3, 7), attended=99, removed_at=at)
    found = garden_summary(garden, YEAR, TODAY)
    told = [found.figures[one] for one in (Figure.PICKED, Figure.HOURS, Figure.WORKSHOPS)]
    assert told == [500.0, 90, None]
    assert found.weighed_grams == 500.0
    spring = WorkLog.objects.get(work=Work.PICK, removed_at=None).planting
    logged(garden.plot, garden.first, Work.PICK, date(2026, 6, 30), planting=spring)  # nobody weighed it
    found = garden_summary(garden, YEAR, TODAY)
    assert [one.grams_a_metre for one in found.yields] == [None]
    assert (found.weighed_grams, found.weighed_m2) == (0, None)


def test_a_plot_added_later_was_not_free_before(garden):
    type(garden).objects.filter(pk=garden.pk).update(made_at=datetime(2025, 3, 1, tzinfo=UTC))
    added = PlotFactory(garden=garden, label="8")
    PlotFactory(garden=garden, label="All", kind="communal")
    record(garden=garden, by=None, about=added, what="plot-made", after={"label": "8"})
    garden.changes.update(at=datetime(2026, 9, 1, tzinfo=UTC))
    garden = type(garden).objects.get(pk=garden.pk)
    logged(added, garden.plots.get(label="7").assignments.first().holder, Work.NOTE, date(2025, 5, 1))
    found = garden_summary(garden, YEAR, TODAY)
    names = (Figure.PLOTS, Figure.FREE, Figure.BEDS)
    assert [found.figures[one] for one in names] == [2, 1, 1]
    assert [[beside[one] for one in names] for _, beside in found.beside] == [[1, 1, 1]]


def test_only_photos_given_for_the_report_stand_in_it(garden):
    log = WorkLog.objects.get(work=Work.PICK)
    size = {"width": 10, "height": 10}
    LogPhoto.objects.create(log=log, image="a/a.jpg", thumb="a/at.jpg", may_show=True, **size)
    LogPhoto.objects.create(log=log, image="b/b.jpg", thumb="b/bt.jpg", **size)
    assert [photo.image.name for photo in garden_summary(garden, YEAR, TODAY).photos] == ["a/a.jpg"]
    WorkLog.objects.filter(pk=log.pk).update(removed_at=timezone.now())
    assert not garden_summary(garden, YEAR, TODAY).photos


def test_a_photo_is_no_larger_on_paper_than_it_needs(garden):
    taken = BytesIO()
    Image.new("RGB", (1600, 1200), "tan").save(taken, "JPEG")
    photo = LogPhoto(log=WorkLog.objects.get(work=Work.PICK), width=1600, height=1200, may_show=True)
    photo.thumb = "t/t.jpg"
    photo.image.save("any.jpg", ContentFile(taken.getvalue()))
    choices = {"since": YEAR.first, "until": YEAR.last}
    asked = Asked(garden=garden, user=garden.first, today=TODAY, paper="a4", language="en", choices=choices)
    picture = next(one for one in KINDS[0].make(asked).document.blocks if isinstance(one, Picture))
    assert Image.open(BytesIO(picture.jpeg)).size == (900, 675)
    assert picture.caption == "June 29, 2026"


def test_a_periods_frosts_lie_where_they_were_on_the_curve(garden):
    """Over New Year the spring is the later year's, the autumn the earlier one's; gaps tell no frost."""
    nights = {date(2025, 8, 15) + timedelta(days=n): 8.0 for n in range(330)}
    nights |= {date(2025, 10, 8): -1.0, date(2026, 5, 3): -0.5}
    GardenReading.objects.bulk_create(
        GardenReading(garden=garden, day=day, tmin_c=celsius) for day, celsius in nights.items()
    )
    choices = {"since": date(2025, 9, 1), "until": date(2026, 8, 31)}

    def drawn():
        asked = Asked(
            garden=garden, user=garden.first, today=TODAY, paper="a4", language="en", choices=choices
        )
        blocks = KINDS[0].make(asked).document.blocks
        charts = [block.draw.args[0] for block in blocks if isinstance(block, Chart)]
        return [(one.falling, one.marker) for one in charts if isinstance(one, FrostChart)]

    assert sorted(drawn()) == [(False, date(2001, 10, 8)), (True, date(2001, 5, 3))]
    garden.readings.filter(day__range=(date(2025, 9, 20), date(2025, 10, 4))).delete()
    assert drawn() == [(True, date(2001, 5, 3))]


def test_a_few_weeks_are_no_reason_to_change_a_year(garden):
    for _more in range(3):
        AssignmentFactory(plot=PlotFactory(garden=garden), began_on=date(2026, 1, 1))
    told = [
        [one.change for one in garden_summary(garden, Period(YEAR.first, last), TODAY).suggestions]
        for last in (date(2026, 2, 28), YEAR.last)
    ]
    assert told == [[], [Change.HANG_SHEETS]]


def test_the_years_before_stand_beside(garden):
    logged(garden.plot, garden.first, Work.PICK, date(2024, 8, 1), grams=900.0, amount=900, unit="g")
    beside = garden_summary(garden, YEAR, TODAY).beside
    assert [(period.first.year, found[Figure.PICKED]) for period, found in beside] == [(2024, 900.0)]


def test_more_plots_take_no_more_queries(garden):
    with CaptureQueriesContext(
        connection,
    ) as one:
        garden_summary(garden, YEAR, TODAY)
    for _more in range(2):
        plot = PlotFactory(garden=garden)
        held = AssignmentFactory(plot=plot, season=garden.seasons.first())
        planting = planted(plot, carrot(slug=f"carrot-{plot.pk}"))
        logged(plot, held.holder, Work.SOW, date(2026, 4, 30), planting=planting)
    with CaptureQueriesContext(connection) as three:
        garden_summary(garden, YEAR, TODAY)
    assert len(three) == len(one)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.code)
def test_every_summary_can_be_made_of_a_full_and_of_an_empty_year(garden, kind):
    def made(year):
        choices = {"since": date(year, 1, 1), "until": date(year, 12, 31)}
        choices |= {"member": garden.first, "plots": [garden.plot]}
        asked = Asked(
            garden=garden, user=garden.first, today=TODAY, paper="a4", language="en", choices=choices
        )
        return kind.make(asked).document

    full, empty = made(2026), made(2001)
    assert full.tables[0][0] == "In figures"
    assert any("carrot" in cell.lower() for _name, table in full.tables for row in table.rows for cell in row)
    assert not empty.tables
    assert any("Nothing was written down" in getattr(block, "text", "") for block in empty.blocks)
