"""The pages of workshops: who sees what, planning, the pack, how many came."""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest
from django.core.exceptions import ValidationError
from django.urls import reverse

from crops.models import Workshop
from plots.models import Change, GardenDate
from plots.service import copy_year, undo
from plots.service.forgetting import forget_person
from schedules.service.workshops import (
    choose_pack,
    keep_workshop,
    remove_workshop,
    restore_workshop,
    write_attendance,
)
from tests.conftest import Cast
from tests.factories import UserFactory
from tests.schedules.samples import carrot, tomato


def address(name: str, cast: Cast, *args: object) -> str:
    return reverse(f"schedules:{name}", args=[cast.garden.slug, *args])


@pytest.fixture
def workshop(cast: Cast) -> Workshop:
    made = Workshop(garden=cast.garden, title="Seeds", on=cast.garden.today() + timedelta(days=3))
    return keep_workshop(workshop=made, by=cast.coordinator)


def test_a_workshop_stands_among_the_gardens_dates_and_moves_there(
    cast: Cast, as_user, workshop: Workshop
) -> None:
    row = GardenDate.objects.get()
    assert (row.title, row.day, row.removed_at) == ("Workshop: Seeds", workshop.on, None)
    workshop.on, workshop.starts_at, workshop.place = date(2024, 6, 8), time(10), "The shed"
    keep_workshop(workshop=workshop, by=cast.coordinator)
    row.refresh_from_db()
    assert (row.day, row.starts_at, row.place) == (date(2024, 6, 8), time(10), "The shed")
    remove_workshop(workshop=workshop, by=cast.coordinator)
    remove_workshop(workshop=workshop, by=cast.coordinator)
    row.refresh_from_db()
    assert row.removed_at is not None
    restore_workshop(workshop=workshop, by=cast.coordinator)
    row.refresh_from_db()
    assert row.removed_at is None
    workshop.refresh_from_db()
    workshop.public = False
    keep_workshop(workshop=workshop, by=cast.coordinator)
    row.refresh_from_db()
    assert row.removed_at is not None


def test_the_date_of_a_workshop_is_changed_with_the_workshop_alone(
    cast: Cast, as_user, workshop: Workshop
) -> None:
    run, row = as_user(cast.coordinator), GardenDate.objects.get()
    workshop.on = date(2024, 6, 8)
    keep_workshop(workshop=workshop, by=cast.coordinator)
    edit = reverse("plots:date_edit", args=[cast.garden.slug, row.pk])
    page = run.get(edit, follow=True)
    assert page.redirect_chain == [(address("workshop", cast, workshop.pk), 302)]
    assert "Change its day here, and the calendar follows." in page.content.decode()
    run.post(edit, {"kind": "other", "title": "Moved", "day": "2024-06-09"})
    for name in ("date_remove", "date_restore"):
        assert run.post(reverse(f"plots:{name}", args=[cast.garden.slug, row.pk])).status_code == 404
    with pytest.raises(ValidationError, match="follows what keeps it: Seeds"):
        undo(change=Change.objects.get(what="date-changed"), by=cast.coordinator)
    row.refresh_from_db()
    assert (row.title, row.day, row.removed_at) == ("Workshop: Seeds", date(2024, 6, 8), None)
    assert copy_year(garden=cast.garden, to_year=2025, by=cast.coordinator) == []


def test_changes_are_kept_in_words_and_taken_back(cast: Cast, workshop: Workshop) -> None:
    carrots = carrot()
    choose_pack(
        workshop=workshop, topics=["thinning", "by-crop", "no-such"], crops=[carrots], title_page=False,
        by=cast.coordinator,
    )  # fmt: skip
    workshop.refresh_from_db()
    assert workshop.topics == ["by-crop", "thinning"]  # in the order of all topics
    told = Change.objects.get(what="workshop-pack")
    assert told.after == {
        "sheets": ["When to plant here, by crop", "Thinning"], "crops": ["Carrot"], "title_page": False,
    }  # fmt: skip
    workshop.title = "Seed and soil"
    keep_workshop(workshop=workshop, by=cast.coordinator)
    undo(change=Change.objects.get(what="workshop-changed"), by=cast.coordinator)
    workshop.refresh_from_db()
    assert workshop.title == "Seeds"
    assert GardenDate.objects.get().title == "Workshop: Seeds"


def test_names_go_when_it_is_known_how_many_came_and_blank_is_not_nobody(
    cast: Cast, workshop: Workshop
) -> None:
    workshop.names = "Pat Ashby\n\n  Tom   Beckwith "
    keep_workshop(workshop=workshop, by=cast.coordinator)
    assert workshop.named == ["Pat Ashby", "Tom Beckwith"]
    assert "Pat" not in str(list(Change.objects.values_list("before", "after")))
    write_attendance(workshop=workshop, attended=None, by=cast.coordinator)
    workshop.refresh_from_db()
    assert (workshop.attended, len(workshop.named)) == (None, 2)
    write_attendance(workshop=workshop, attended=0, by=cast.coordinator)
    workshop.refresh_from_db()
    assert (workshop.attended, workshop.names) == (0, "")


def test_members_see_what_is_to_come_and_who_runs_it_everything(
    cast: Cast, as_user, workshop: Workshop
) -> None:
    past = Workshop.objects.create(
        garden=cast.garden, title="Compost", on=cast.garden.today() - timedelta(days=9), expected=7
    )
    member, run = as_user(cast.member), as_user(cast.coordinator)
    page = member.get(address("workshops", cast)).content.decode()
    assert "Seeds" in page
    assert "Compost" not in page
    assert member.get(address("workshop", cast, past.pk)).status_code == 404
    seen = member.get(address("workshop", cast, workshop.pk)).content.decode()
    assert "People expected" not in seen
    page = run.get(address("workshop", cast, past.pk)).content.decode()
    assert "not written down" in page
    assert "has not been written down yet" in page
    assert "Compost" in run.get(address("workshops", cast)).content.decode()


def test_a_workshop_is_planned_its_sheets_are_chosen_and_its_people_counted(cast: Cast, as_user) -> None:
    run = as_user(cast.coordinator)
    kale, out = carrot(slug="kale", name="Kale"), cast.garden.today()
    new = address("workshop_new", cast)
    wrong = run.post(new, {"title": "Seeds", "on": out.isoformat(), "starts_at": "11:00", "ends_at": "10:00"})
    assert wrong.status_code == 422
    assert "It must end after it starts." in wrong.content.decode()
    assert 'value="Seeds"' in wrong.content.decode()
    answer = run.post(new, {"title": "Seeds", "on": out.isoformat(), "expected": "12", "public": "on"})
    made = Workshop.objects.get()
    assert answer.url == address("workshop_pack", cast, made.pk)
    assert made.made_by == cast.coordinator
    page = run.get(answer.url).content.decode()
    assert "Reading frost risk" in page
    chosen = {"topics": ["frost-risk"], "crops": [kale.pk], "title_page": "on"}
    assert run.post(answer.url, chosen).url == address("workshop", cast, made.pk)
    made.refresh_from_db()
    assert made.topics == ["frost-risk"]
    assert list(made.crops.all()) == [kale]
    assert run.post(answer.url, {"topics": ["no-such"]}).status_code == 422
    came = address("workshop_came", cast, made.pk)
    assert run.post(came, {"attended": "many"}).status_code == 422
    run.post(came, {"attended": "9"})
    made.refresh_from_db()
    assert made.attended == 9
    removed = run.post(address("workshop_remove", cast, made.pk), follow=True).content.decode()
    assert "is off the list" in removed
    assert run.get(address("workshop", cast, made.pk)).status_code == 404


def test_how_many_came_is_not_known_before_the_day(cast: Cast, as_user, workshop: Workshop) -> None:
    answer = as_user(cast.coordinator).post(address("workshop_came", cast, workshop.pk), {"attended": "3"})
    assert answer.status_code == 422
    workshop.refresh_from_db()
    assert workshop.attended is None


def test_the_list_asks_as_much_for_many_as_for_one(
    cast: Cast, as_user, django_assert_num_queries, workshop: Workshop
) -> None:
    run = as_user(cast.coordinator)
    for count in (1, 3):
        with django_assert_num_queries(6):
            run.get(address("workshops", cast))
        for n in range(2):
            Workshop.objects.create(garden=cast.garden, title=f"More {count}{n}", on=workshop.on)
    choose_pack(workshop=workshop, topics=["by-crop"], crops=[tomato()], title_page=True, by=cast.coordinator)
    assert "Tomato" in run.get(address("workshop", cast, workshop.pk)).content.decode()


def test_who_is_forgotten_stands_on_no_list_for_name_tags(cast: Cast, workshop: Workshop) -> None:
    person = UserFactory(name="Lena Left")
    Workshop.objects.update(names="Lena Left\nPat Ashby")
    forget_person(garden=cast.garden, person=person, by=cast.coordinator)
    workshop.refresh_from_db()
    assert workshop.named == ["a former member", "Pat Ashby"]
