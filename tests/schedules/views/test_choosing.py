"""Nerve, chances and free space as pages: asked, answered, refused."""

from __future__ import annotations

from datetime import date
from uuid import uuid4

import pytest
from django.test import Client

from crops.models import Planting
from plots.models import Garden, Membership, PlotKind
from schedules.service.logs import keep_logs
from tests.conftest import Cast
from tests.factories import PlotFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato

FITS, NERVE = "/g/linden-row/fits/", "/g/linden-row/nerve/"
FITS_QUERIES, NERVE_QUERIES = 10, 15


@pytest.fixture
def holder(cast: Cast, as_user, time_machine) -> Client:
    """The plot's holder, on a Wednesday in April 2026, in a garden with mean frost dates."""
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    return as_user(cast.holder)


def text_of(response, status: int = 200) -> str:
    assert response.status_code == status
    return response.content.decode()


def test_what_fits_is_asked_by_day_space_and_nerve(cast: Cast, holder: Client) -> None:
    carrot()
    tomato(maturity_days_low=100, maturity_days_high=110)
    assert "From April 22, 2026 to the end of the season" in text_of(holder.get(FITS))
    assert "No crop can begin at once." in text_of(holder.get(FITS, {"day": "2026-11-20"}))
    asked = {"day": "2026-07-10", "row_m": "6", "nerve": "middling", "plot": cast.plot.pk}
    page = text_of(holder.get(FITS, asked))
    assert "1 crop can begin at once. Nerve: middling (30 %)." in page
    link = f"/g/linden-row/when/carrot/chance/?day=2026-07-10&amp;plot={cast.plot.pk}"
    assert f'<a href="{link}">Carrot</a>' in page
    assert "seed<details" in page
    assert "room for 36 plants" in page
    assert f"/g/linden-row/plots/{cast.plot.pk}/plan/add/carrot/?year=2026" in page
    # Ripe by the mean first frost, 1 October: 9 days after the equinox count for 7, 54 before it do the rest.
    assert "<strong>July 30</strong>" in page
    assert "Tomato" not in page
    part = text_of(holder.get(FITS, asked, headers={"hx-request": "true"}))
    assert part.startswith('<section id="fits">')
    assert "<h1>" not in part


def test_a_space_that_ends_before_it_begins_is_refused_beside_the_field(cast: Cast, holder: Client) -> None:
    asked = {"day": "2026-07-10", "until": "2026-07-01", "row_m": "six feet or so"}
    page = text_of(holder.get(FITS, asked), 422)
    assert "This day must come after the first one." in page
    assert 'value="six feet or so"' in page
    assert 'value="2026-07-01"' in page
    assert "This year lies too far away." in text_of(holder.get(FITS, {"day": "9999-12-31"}), 422)
    assert 'value="soon"' in text_of(holder.get(FITS, {"day": "soon"}), 422)


def test_plots_of_others_are_not_offered(cast: Cast, holder: Client, as_user) -> None:
    page = text_of(as_user(cast.member).get(FITS, {"day": "2026-07-10", "plot": cast.plot.pk}), 422)
    assert f'value="{cast.plot.pk}"' not in page


def test_only_who_plans_a_plot_is_shown_the_way_into_its_plan(cast: Cast, holder: Client) -> None:
    carrot()
    shared = PlotFactory(garden=cast.garden, kind=PlotKind.COMMUNAL)
    asked = {"day": "2026-07-10", "plot": shared.pk}
    page = text_of(holder.get(FITS, asked))
    assert "1 crop can begin at once. Nobody chose a nerve" in page
    assert "plan/add/" not in page


def test_a_link_that_names_no_day_asks_of_today_and_keeps_the_rest(cast: Cast, holder: Client) -> None:
    carrot()
    page = text_of(holder.get(FITS, {"plot": cast.plot.pk, "row_m": "6"}))
    assert "From April 22, 2026 to" in page
    assert f'<option value="{cast.plot.pk}" selected>' in page
    assert "room for 36 plants" in page


def test_a_member_chooses_their_nerve_and_sees_what_it_costs(cast: Cast, holder: Client) -> None:
    planting = planted(cast.plot, tomato())
    page = text_of(holder.get(NERVE))
    assert "as the garden has it: as published calendars have it" in page
    assert f'<a href="/g/linden-row/plantings/{planting.pk}/">Tomato</a>' in page
    assert text_of(holder.post(NERVE, {"nerve": "reckless"}), 422).count('class="error"') >= 1
    page = text_of(holder.post(NERVE, {"nerve": "careful"}))
    assert "What this moves" in page
    assert Membership.objects.get(user=cast.holder).nerve == ""
    seen = page.split('name="seen" value="')[1].split('"')[0]
    assert holder.post(NERVE, {"nerve": "careful", "seen": seen}).status_code == 302
    assert Membership.objects.get(user=cast.holder).nerve == "careful"
    why = text_of(holder.get(f"/g/linden-row/plantings/{planting.pk}/"))
    assert "The dates follow the nerve of who holds the plot: careful (10 %)." in why
    assert "A week earlier, on " in why
    assert "What nerve costs" in why
    assert "both read off the curve of frost risk" in why


@pytest.mark.parametrize("count", [1, 3])
def test_the_page_of_nerve_takes_the_same_queries_for_one_planting_and_for_three(
    count: int, cast: Cast, holder: Client, django_assert_num_queries
) -> None:
    crop = tomato()
    for _ in range(count):
        planted(cast.plot, crop)
    holder.get(NERVE)
    with django_assert_num_queries(NERVE_QUERIES):
        holder.get(NERVE)


@pytest.mark.parametrize("count", [1, 3])
def test_what_fits_takes_the_same_queries_for_one_crop_and_for_three(
    count: int, cast: Cast, holder: Client, django_assert_num_queries
) -> None:
    for number in range(count):
        carrot(slug=f"carrot-{number}")
    with django_assert_num_queries(FITS_QUERIES):
        holder.get(FITS, {"day": "2026-07-10"})


def test_a_planting_keeps_its_own_nerve_and_cover(cast: Cast, holder: Client) -> None:
    tomato()
    new = f"/g/linden-row/plots/{cast.plot.pk}/plan/add/tomato/?year=2026"
    assert "A row cover is counted as keeping off 2 °F of frost" in text_of(holder.get(new)).replace(
        "\xa0", " "
    )
    typed = {"way": "spring-transplant", "successions": "1", "nerve": "reckless", "covered": "on"}
    page = text_of(holder.post(new, typed), 422)
    assert "checked" in page.split('name="covered"')[1].split(">")[0]
    assert holder.post(new, {**typed, "nerve": "careful"}).status_code == 302
    made = Planting.objects.get()
    assert (made.nerve, made.covered) == ("careful", True)
    assert "own nerve: careful (10 %)" in text_of(holder.get(f"/g/linden-row/plantings/{made.pk}/"))


def test_a_chance_is_told_drawn_and_given_as_a_table(cast: Cast, holder: Client) -> None:
    tomato()
    chance = "/g/linden-row/when/tomato/chance/"
    page = text_of(holder.get(chance, {"day": "2026-05-20"}))
    assert "Begun on May 20, a quick variety is ripe about July 24, in about " in page
    assert page.count("<svg") >= 2
    assert '<th scope="row">May 21</th>' in page
    assert "as if the two had nothing to do with each other" in page
    # Hardly ever is nothing to warn of: neither freeze is told of where it comes in 0 of 100 years.
    assert "In about 0 of 100 years" not in text_of(holder.get(chance, {"day": "2026-06-10"}))
    assert holder.get(chance, {"day": "never"}).status_code == 422
    assert holder.get("/g/linden-row/when/no-such-crop/chance/").status_code == 404


def test_a_chance_in_a_plot_is_that_of_its_holder_and_of_what_its_plan_holds(
    cast: Cast, holder: Client, as_user
) -> None:
    crop = tomato()
    planting = planted(cast.plot, crop, covered=True)
    chance = "/g/linden-row/when/tomato/chance/"
    asked = {"day": "2026-05-20", "plot": cast.plot.pk}
    Membership.objects.filter(user=cast.holder).update(nerve="careful")
    page = text_of(holder.get(chance, asked))
    assert (
        "The dates follow the nerve of who holds the plot: careful (10 %). The chance of a quick variety is"
        in page
    )
    assert f"In the plan of plot {cast.plot}" in page
    own = page.split(f'<a href="/g/linden-row/plantings/{planting.pk}/">Tomato</a>')[1].split("</li>")[0]
    assert own.startswith(" (under a row cover): Set out on June 1, it ripens")
    assert "of 100 years." in own
    assert own.split(": ")[1] in text_of(holder.get(f"/g/linden-row/plantings/{planting.pk}/"))
    page = text_of(holder.get(chance, {**asked, "day": "2027-05-20"}))
    assert f"Nothing of it that could ripen stands in the plan of plot {cast.plot} for that year." in page
    assert "Please choose one of those shown." in text_of(as_user(cast.member).get(chance, asked), 422)


def test_nerve_costs_nothing_any_more_where_all_is_begun(cast: Cast, holder: Client) -> None:
    planting = planted(cast.plot, tomato())
    why = f"/g/linden-row/plantings/{planting.pk}/"
    assert "earliest day" in text_of(holder.get(why))
    told = {"planting": planting, "day": date(2026, 4, 21), "by": cast.holder, "person": cast.holder}
    keep_logs(garden=cast.garden, plots=[cast.plot], key=uuid4(), work="transplant", **told)
    page = text_of(holder.get(why))
    assert "earliest day" not in page
    assert "Set out on April 21, it ripens before a killing freeze in about" in page
    assert "still to be begun" in text_of(holder.get(NERVE))


def test_the_page_of_nerve_opens_with_the_year_that_is_planned(
    cast: Cast, holder: Client, time_machine
) -> None:
    planted(cast.plot, tomato(), year=2027)
    assert 'href="?year=2027"' in text_of(holder.get(NERVE))
    time_machine.move_to("2026-11-22T18:00Z", tick=False)
    page = text_of(holder.get(NERVE))
    assert "What it costs in your plots, 2027" in page


def test_without_frost_dates_the_pages_say_what_is_missing(cast: Cast, as_user) -> None:
    crop = tomato()
    assert Garden.objects.filter(pk=cast.garden.pk, climate=None).exists()
    for path in (FITS, NERVE, f"/g/linden-row/when/{crop.slug}/chance/"):
        page = text_of(as_user(cast.coordinator).get(path))
        assert "/g/linden-row/frost/source/" in page
