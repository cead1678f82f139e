"""Summaries of a garden, a plot and a member, of rows as they are kept."""

from datetime import date
from io import BytesIO

import pytest
from django.core.files.base import ContentFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from PIL import Image

from crops.models import Workshop
from plots.models import HoursDone
from schedules.models import LogPhoto, WorkLog
from schedules.reports.document import Picture
from schedules.service.print_table.summary import KINDS
from schedules.service.print_table.table import Asked
from schedules.service.summary import garden_summary, member_summary, plot_summary
from schedules.summary import Figure, Period
from schedules.work import Work
from tests.factories import AssignmentFactory, PlotFactory
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
    Workshop.objects.create(garden=garden, title="Frost", on=date(2026, 3, 7), attended=12)
    found = garden_summary(garden, YEAR, TODAY)
    assert found.figures[Figure.HOURS] == 90
    assert (found.figures[Figure.HELD], found.figures[Figure.CHANGED], found.figures[Figure.MEMBERS]) == (
        1,
        1,
        2,
    )
    assert (found.figures[Figure.PICKED], found.figures[Figure.WATER]) == (500.0, 20.0)
    assert found.figures[Figure.ATTENDED] == 12
    assert [one.grams_a_metre for one in found.yields] == [250.0]
    assert found.weighed_m2 == 18.0
    assert (found.plan.due, found.plan.begun, found.plan.picked) == (2, 2, 1)
    assert [one.days_off for one in found.sowings][:1] == [0]


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


def test_only_photos_given_for_the_report_stand_in_it(garden):
    log = WorkLog.objects.get(work=Work.PICK)
    size = {"width": 10, "height": 10}
    LogPhoto.objects.create(log=log, image="a/a.jpg", thumb="a/at.jpg", may_show=True, **size)
    LogPhoto.objects.create(log=log, image="b/b.jpg", thumb="b/bt.jpg", **size)
    assert [photo.image.name for photo in garden_summary(garden, YEAR, TODAY).photos] == ["a/a.jpg"]


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
