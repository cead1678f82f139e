"""A plot's plan: season, jobs and list; choosing, changing, removing and putting back."""

from __future__ import annotations

import pytest
from django.test import Client

from crops.models import Crop, Planting
from schedules.service import GardenDates
from schedules.wording.calendar import day_text
from tests.conftest import Cast
from tests.factories import PlotFactory, VarietyFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato

PLAN_QUERIES = 18


@pytest.fixture
def holder(cast: Cast, as_user, time_machine) -> Client:
    """The plot's holder, on a Wednesday in April 2026, in a garden with mean frost dates."""
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    return as_user(cast.holder)


def plan_of(cast: Cast) -> str:
    return f"/g/linden-row/plots/{cast.plot.pk}/plan/"


def text_of(response) -> str:
    return response.content.decode()


def test_an_empty_plan_asks_for_a_crop(cast: Cast, holder: Client) -> None:
    page = text_of(holder.get(plan_of(cast)))
    assert "Plot A1 in 2026" in page
    assert "Nothing is planned for 2026 yet." in page
    assert f'href="{plan_of(cast)}add/?year=2026"' in page
    assert "<figure" not in page


def test_a_plan_draws_the_season_and_says_it_again_as_a_table(cast: Cast, holder: Client) -> None:
    planting = planted(cast.plot, tomato())
    page = text_of(holder.get(plan_of(cast)))
    assert "<figure" in page
    for row in GardenDates.of(cast.garden).planting(planting).entries:
        cells = [
            f'<a href="/g/linden-row/plantings/{planting.pk}/#{row.operation}-1">Tomato</a>',
            f">{day_text(row.earliest, 2026)}</td>",
            f"<strong>{day_text(row.best, 2026)}</strong>",
            f">{day_text(row.latest, 2026)}</td>",
        ]
        assert [cell for cell in cells if cell not in page] == []


def test_this_weeks_jobs_stand_on_the_plan(cast: Cast, holder: Client) -> None:
    planted(cast.plot, carrot())
    planted(cast.plot, tomato())
    page = text_of(holder.get(plan_of(cast)))
    assert "The week of April 20" in page
    assert "last week for it, until April 26" in page
    assert "possible now, best around May 3, until May 30" in page
    assert "The week of April 27: 1 job" in page


def test_another_year_is_a_plan_of_its_own(cast: Cast, holder: Client) -> None:
    planted(cast.plot, carrot(), year=2027)
    assert "Nothing is planned for 2026 yet." in text_of(holder.get(plan_of(cast)))
    page = text_of(holder.get(plan_of(cast), {"year": "2027"}))
    assert "Plot A1 in 2027" in page
    assert "spring, sown or set in its place" in page


@pytest.mark.parametrize("year", ["x", "0", "99999", "-2026", "²026", ""])
def test_a_year_that_cannot_be_is_the_present_one(cast: Cast, holder: Client, year: str) -> None:
    assert "Plot A1 in 2026" in text_of(holder.get(plan_of(cast), {"year": year}))


def test_a_helper_reads_the_plan_and_is_offered_no_change(cast: Cast, holder: Client, as_user) -> None:
    planted(cast.plot, carrot())
    page = text_of(as_user(cast.helper).get(plan_of(cast)))
    assert "Carrot" in page
    assert "Add a crop" not in page
    assert "/edit/" not in page


@pytest.mark.parametrize(
    ("person", "words"),
    [
        ("holder", "A coordinator of the garden"),
        ("coordinator", "Say where the frost dates"),
    ],
)
def test_without_frost_dates_the_plan_says_what_comes_next(
    cast: Cast, as_user, person: str, words: str
) -> None:
    planted(cast.plot, carrot(), year=cast.garden.today().year)
    page = text_of(as_user(getattr(cast, person)).get(plan_of(cast)))
    assert "no planting dates can be worked out" in page
    assert words in page
    assert "Carrot" in page


@pytest.mark.parametrize("count", [1, 3])
def test_the_plan_takes_the_same_queries_for_one_planting_and_for_three(
    cast: Cast, holder: Client, count: int, django_assert_num_queries
) -> None:
    for number in range(count):
        planted(cast.plot, carrot(slug=f"carrot-{number}"))
    with django_assert_num_queries(PLAN_QUERIES):
        holder.get(plan_of(cast))


def test_the_crops_to_choose_from_show_their_dates_and_are_searched(cast: Cast, holder: Client) -> None:
    carrot()
    tomato()
    page = text_of(holder.get(plan_of(cast) + "add/"))
    assert f'href="{plan_of(cast)}add/carrot/?year=2026">Carrot</a>' in page
    assert "Spring: sow April 19 to May 30" in page
    assert "Autumn: sow June 15 to July 30" in page
    found = text_of(holder.get(plan_of(cast) + "add/", {"q": "solan"}))
    assert "Tomato" in found
    assert "Carrot" not in found
    assert "No crop here is called “leek”" in text_of(holder.get(plan_of(cast) + "add/", {"q": "leek"}))


def test_a_search_by_htmx_is_answered_with_the_list_alone(cast: Cast, holder: Client) -> None:
    carrot()
    part = text_of(holder.get(plan_of(cast) + "add/", {"q": "car"}, headers={"HX-Request": "true"}))
    assert part.startswith('<div id="crops"')
    assert "Carrot" in part
    assert "<html" not in part


def test_each_way_is_offered_with_its_dates_or_with_why_it_has_none(cast: Cast, holder: Client) -> None:
    tomato()
    page = text_of(holder.get(plan_of(cast) + "add/tomato/"))
    assert (
        "Spring, as seedlings raised under cover: Transplant May 17 to June 7; harvest July 21 to October 1"
    ) in page
    assert "Autumn, as seedlings raised under cover: no dates here:" in page
    assert page.index('value="spring-transplant"') < page.index('value="autumn-transplant"')


def add(cast: Cast, browser: Client, crop: Crop, **typed: str):
    values = {"way": "spring-sow", "successions": "1", **typed}
    return browser.post(plan_of(cast) + f"add/{crop.slug}/?year=2026", values)


def test_a_chosen_crop_enters_the_plan(cast: Cast, holder: Client) -> None:
    crop = carrot()
    response = add(cast, holder, crop, successions="2", row_length_m="10", note="by the fence")
    assert (response.status_code, response.headers["Location"]) == (302, plan_of(cast) + "?year=2026")
    planting = Planting.objects.get()
    assert (planting.plot, planting.crop, planting.variety, planting.year) == (cast.plot, crop, None, 2026)
    assert (planting.turn, planting.start, planting.successions) == ("spring", "sow", 2)
    assert planting.row_length_m == 3.048
    assert (planting.note, planting.made_by) == ("by the fence", cast.holder)
    page = text_of(holder.get(response.headers["Location"]))
    assert "Carrot is in the plan." in page
    assert f'action="/g/linden-row/plantings/{planting.pk}/remove/"' in page


def test_a_variety_brings_its_own_dates(cast: Cast, holder: Client) -> None:
    crop = carrot()
    quick = VarietyFactory(garden=cast.garden, crop=crop, name="Quick", maturity_days_low=40)
    address = plan_of(cast) + f"add/carrot/?year=2026&variety={quick.pk}"
    assert "harvest May 29 to" in text_of(holder.get(address))
    holder.post(address, {"way": "spring-sow", "successions": "1"})
    assert Planting.objects.get().variety == quick


def test_a_variety_of_another_garden_does_not_exist(cast: Cast, holder: Client) -> None:
    foreign = VarietyFactory(crop=carrot())
    assert holder.get(plan_of(cast) + f"add/carrot/?variety={foreign.pk}").status_code == 404


def test_a_form_with_mistakes_keeps_what_was_typed(cast: Cast, holder: Client) -> None:
    response = add(cast, holder, carrot(), successions="9", row_length_m="long", note="by the fence")
    page = text_of(response)
    assert response.status_code == 422
    assert "There is time for 2 sowings." in page
    assert "“long” cannot be read." in page
    assert 'value="9"' in page
    assert 'value="long"' in page
    assert "by the fence</textarea>" in page
    assert Planting.objects.count() == 0


def test_a_way_that_was_not_offered_is_refused(cast: Cast, holder: Client) -> None:
    response = add(cast, holder, carrot(), way="winter-sow")
    assert response.status_code == 422
    assert "Please choose one of those shown." in text_of(response)
    assert add(cast, holder, Crop.objects.get(), way="").status_code == 422
    assert Planting.objects.count() == 0


def test_a_plot_given_up_takes_no_more_crops(cast: Cast, holder: Client) -> None:
    cast.plot.retired_on = "2026-01-01"
    cast.plot.save()
    response = add(cast, holder, carrot())
    assert response.status_code == 422
    assert "Plot A1 has been given up." in text_of(response)


def test_a_crop_without_a_window_may_be_planned_all_the_same(cast: Cast, holder: Client) -> None:
    crop = tomato()
    page = text_of(holder.get(plan_of(cast) + "add/tomato/"))
    reason = page.split("Autumn, as seedlings raised under cover: no dates here:")[1].split("<")[0].strip()
    add(cast, holder, crop, way="autumn-transplant")
    planting = Planting.objects.get()
    page = text_of(holder.get(f"/g/linden-row/plantings/{planting.pk}/"))
    assert "No window:" in page
    assert reason in page
    assert len(reason) > 20


def test_in_a_garden_without_frost_dates_every_way_of_the_crop_is_offered(cast: Cast, as_user) -> None:
    carrot()
    browser = as_user(cast.holder)
    page = text_of(browser.get(plan_of(cast) + "add/carrot/"))
    assert "Spring, sown or set in its place" in page
    assert "Autumn, sown or set in its place" in page
    browser.post(plan_of(cast) + "add/carrot/?year=2026", {"way": "autumn-sow", "successions": "3"})
    assert Planting.objects.get().turn == "autumn"


def test_a_planting_shows_each_window_with_its_reasons(cast: Cast, holder: Client) -> None:
    planting = planted(cast.plot, carrot(), note="by the fence")
    page = text_of(holder.get(f"/g/linden-row/plantings/{planting.pk}/"))
    assert "<title>Carrot 2026" in page
    assert "Earliest April 19, best <strong>May 3</strong>, latest May 30" in page
    assert "Published calendars begin 3 weeks before the mean last frost" in page
    assert 'href="/g/linden-row/crops/carrot/"' in page
    assert "by the fence" in page
    assert "Mean frost dates" in page


def test_the_same_opens_within_the_plan(cast: Cast, holder: Client) -> None:
    planting = planted(cast.plot, carrot())
    address = f"/g/linden-row/plantings/{planting.pk}/"
    part = text_of(holder.get(address, headers={"HX-Request": "true"}))
    assert "<html" not in part
    assert "Earliest April 19, best <strong>May 3</strong>, latest May 30" in part
    assert f'hx-get="{address}"' in text_of(holder.get(plan_of(cast)))


def test_a_planting_can_change_its_time_and_number(cast: Cast, holder: Client) -> None:
    planting = planted(cast.plot, carrot(), row_length_m=3.048, note="old")
    address = f"/g/linden-row/plantings/{planting.pk}/edit/"
    page = text_of(holder.get(address))
    assert 'value="10"' in page
    assert ">\nold</textarea>" in page
    response = holder.post(address, {"way": "autumn-sow", "successions": "2", "row_length_m": "", "note": ""})
    assert response.headers["Location"] == f"/g/linden-row/plantings/{planting.pk}/"
    planting.refresh_from_db()
    assert (planting.turn, planting.successions) == ("autumn", 2)
    assert (planting.row_length_m, planting.note) == (None, "")
    assert planting.changed_by == cast.holder
    assert holder.post(address, {"way": "", "successions": "x"}).status_code == 422


def test_changing_keeps_the_variety_unless_another_is_asked_for(cast: Cast, holder: Client) -> None:
    crop = carrot()
    quick = VarietyFactory(garden=cast.garden, crop=crop, name="Quick")
    planting = planted(cast.plot, crop, variety=quick)
    address = f"/g/linden-row/plantings/{planting.pk}/edit/"
    values = {"way": "spring-sow", "successions": "1"}
    holder.post(address, values)
    planting.refresh_from_db()
    assert planting.variety == quick
    holder.post(address + "?variety=", values)
    planting.refresh_from_db()
    assert planting.variety is None


def test_removing_offers_to_put_it_back(cast: Cast, holder: Client) -> None:
    planting = planted(cast.plot, carrot())
    address = f"/g/linden-row/plantings/{planting.pk}/"
    page = text_of(holder.post(address + "remove/", follow=True))
    assert "Carrot is off the plan." in page
    assert "Nothing is planned for 2026 yet." in page
    assert f'action="{address}restore/"' in page
    assert holder.get(address).status_code == 404
    page = text_of(holder.post(address + "restore/", follow=True))
    assert "Carrot is back in the plan." in page
    assert holder.get(address).status_code == 200
    assert holder.post(address + "restore/").status_code == 404


def test_a_planting_of_a_neighbours_plot_does_not_exist_for_a_member(cast: Cast, holder: Client) -> None:
    planting = planted(PlotFactory(garden=cast.garden), carrot())
    for page in ("", "edit/"):
        assert holder.get(f"/g/linden-row/plantings/{planting.pk}/{page}").status_code == 404
    assert holder.post(f"/g/linden-row/plantings/{planting.pk}/remove/").status_code == 404
    planting.refresh_from_db()
    assert planting.removed_at is None
