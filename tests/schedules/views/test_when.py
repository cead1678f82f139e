"""When do I plant this here? By crop, by month, and for one crop."""

from __future__ import annotations

import pytest
from django.test import Client

from tests.conftest import Cast
from tests.factories import VarietyFactory
from tests.schedules.samples import carrot, set_mean_frost, tomato

WHEN = "/g/linden-row/when/"


@pytest.fixture
def member(cast: Cast, as_user, time_machine) -> Client:
    """A member without a plot, on a Wednesday in April 2026, in a garden with mean frost dates."""
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    return as_user(cast.member)


def text_of(response) -> str:
    assert response.status_code == 200
    return response.content.decode()


def test_every_crop_has_a_row_for_each_half_of_the_year_in_which_it_has_dates(
    cast: Cast, member: Client
) -> None:
    carrot()
    tomato()
    page = text_of(member.get(WHEN))
    assert '<a href="/g/linden-row/when/carrot/?year=2026#spring-sow-sow">Apr 19 – May 30</a>' in page
    assert '<a href="/g/linden-row/when/carrot/?year=2026#autumn-sow-sow">Jun 15 – Jul 30</a>' in page
    assert "#spring-transplant-start-indoors" in page
    assert "#autumn-transplant" not in page
    assert 'rowspan="2"' in page
    assert "Mean frost dates" in page


def test_a_crop_without_any_window_says_why(cast: Cast, member: Client) -> None:
    tomato(maturity_days_low=200, maturity_days_high=220)
    page = text_of(member.get(WHEN))
    assert 'colspan="5"' in page
    row = page.split('colspan="5">')[1].split("</td>")[0]
    assert "200" in row


def test_a_month_lists_what_can_be_done_in_it(cast: Cast, member: Client) -> None:
    carrot()
    tomato()
    page = text_of(member.get(WHEN, {"by": "month"}))

    def month(name: str) -> str:
        return page.split(f"<summary>{name}</summary>")[1].split("</details>")[0]

    april = month("April")
    assert [word for word in ("Start indoors", "Sow", "Transplant", "Harvest") if word in april] == [
        "Start indoors",
        "Sow",
    ]
    assert 'href="/g/linden-row/when/carrot/?year=2026#spring-sow-sow">Carrot</a>' in april
    assert "Nothing to begin, nothing to pick." in month("January")
    assert month("July").count(">Carrot<") == 2
    assert [part.split("</summary>")[0].split(">")[-1] for part in page.split("<details open>")[1:]] == [
        "April"
    ]


def test_crops_are_found_by_name_and_by_family(cast: Cast, member: Client) -> None:
    carrot()
    tomato()
    found = text_of(member.get(WHEN, {"q": "SOLAN"}))
    assert "Tomato" in found
    assert "Carrot" not in found
    assert "No crop here is called “leek”." in text_of(member.get(WHEN, {"q": "leek"}))


def test_a_search_by_htmx_is_answered_with_the_list_alone(cast: Cast, member: Client) -> None:
    carrot()
    part = text_of(member.get(WHEN, {"q": "car", "by": "month"}, headers={"HX-Request": "true"}))
    assert part.startswith('<div id="crops"')
    assert "<summary>April</summary>" in part
    assert "<html" not in part


def test_a_garden_without_frost_dates_says_what_comes_next(cast: Cast, as_user) -> None:
    carrot()
    page = text_of(as_user(cast.coordinator).get(WHEN))
    assert "no planting dates can be worked out" in page
    assert 'href="/g/linden-row/frost/source/"' in page
    assert "no planting dates" in text_of(as_user(cast.member).get(WHEN + "carrot/"))


def test_one_crop_shows_each_way_with_its_reasons(cast: Cast, member: Client) -> None:
    carrot()
    page = text_of(member.get(WHEN + "carrot/"))
    assert "<figure" in page
    assert 'id="spring-sow-sow"' in page
    assert 'id="spring-sow-sow-2"' in page
    assert "Earliest April 19, best <strong>May 3</strong>, latest May 30" in page
    assert "Published calendars begin 3 weeks before the mean last frost" in page
    assert 'href="/g/linden-row/crops/carrot/"' in page


def test_one_crop_without_a_window_says_why_and_draws_nothing(cast: Cast, member: Client) -> None:
    tomato(maturity_days_low=200, maturity_days_high=220)
    page = text_of(member.get(WHEN + "tomato/"))
    assert "<figure" not in page
    assert "No window:" in page
    assert "200" in page


def test_a_variety_shows_its_own_dates(cast: Cast, member: Client) -> None:
    crop = carrot()
    quick = VarietyFactory(garden=cast.garden, crop=crop, name="Quick", maturity_days_low=40)
    assert "Earliest June 18" in text_of(member.get(WHEN + "carrot/"))
    page = text_of(member.get(WHEN + "carrot/", {"variety": quick.pk}))
    assert "Carrot ‘Quick’" in page
    assert "Earliest May 29" in page
    assert member.get(WHEN + "carrot/", {"variety": "0"}).status_code == 404
    assert member.get(WHEN + "carrot/", {"variety": "9" * 30}).status_code == 404


def test_an_unknown_crop_does_not_exist(cast: Cast, member: Client) -> None:
    assert member.get(WHEN + "leek/").status_code == 404


@pytest.mark.parametrize("count", [1, 3])
def test_the_page_takes_the_same_queries_for_one_crop_and_for_three(
    cast: Cast, member: Client, count: int, django_assert_num_queries
) -> None:
    for number in range(count):
        carrot(slug=f"carrot-{number}")
    with django_assert_num_queries(9):
        member.get(WHEN)
