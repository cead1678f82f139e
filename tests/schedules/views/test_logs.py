"""Writing down what was done, in a browser without a script and from a phone that kept it."""

from datetime import date
from uuid import uuid4

import pytest
from django.urls import reverse

from plots.models import HoursDone, Plot
from schedules.models import WorkLog
from tests.factories import CropFactory, PlantingFactory, PlotFactory

JSON = {"HTTP_ACCEPT": "application/json"}


@pytest.fixture(autouse=True)
def today(time_machine):
    time_machine.move_to("2024-06-05T18:00+00:00", tick=False)


def address(cast, name="log_new", *more) -> str:
    return reverse(f"schedules:{name}", args=[cast.garden.slug, *more])


def told(cast, **values):
    return {"key": uuid4(), "work": "water", "plots": cast.plot.pk, "author": cast.holder.pk, **values}


def test_two_taps_keep_what_the_form_opens_with_and_a_third_takes_it_back(cast, as_user):
    client = as_user(cast.holder)
    page = client.get(address(cast), {"work": "water"})
    form = page.context["form"]
    sent = {field.html_name: field.value() for field in form if field.value() is not None}
    kept = client.post(address(cast), {**sent, "next": address(cast, "week")}, follow=True)
    log = WorkLog.objects.get()
    assert (log.work, log.plot, log.day, log.person) == ("water", cast.plot, date(2024, 6, 5), cast.holder)
    assert kept.redirect_chain == [(address(cast, "week"), 302)]
    undo = address(cast, "log_remove", log.pk)
    assert f'action="{undo}"' in kept.content.decode()
    assert "Kept: Watered plot A1" in kept.content.decode()
    back = client.post(undo, follow=True).content.decode()
    assert "Taken back: Watered plot A1" in back
    assert WorkLog.objects.get().removed_at is not None
    client.post(address(cast, "log_restore", log.pk))
    assert WorkLog.objects.get().removed_at is None


def test_a_phone_is_told_what_was_kept_once(cast, as_user):
    client, sent = as_user(cast.holder), told(cast, amount="3", unit="cans")
    first = client.post(address(cast), sent, **JSON)
    log = WorkLog.objects.get()
    row = {"log": log.pk, "key": str(sent["key"]), "plot": "A1", "undo": address(cast, "log_remove", log.pk)}
    assert (first.status_code, first.json()) == (201, {"kept": [row], "text": "Watered plot A1, 3 cans"})
    again = client.post(address(cast), {**sent, "amount": "4"}, **JSON)
    assert (again.status_code, again.json()) == (200, first.json())
    other = client.post(address(cast), told(cast, author=cast.co_gardener.pk), **JSON)
    assert other.status_code == 409
    wrong = client.post(address(cast), told(cast, day="2024-06-06", amount="x"), **JSON)
    assert (wrong.status_code, sorted(wrong.json()["errors"])) == (422, ["amount"])
    assert client.post(row["undo"], **JSON).json() == {"text": "Taken back: Watered plot A1, 3 cans"}
    assert client.post(row["undo"], **JSON).status_code == 200
    assert WorkLog.objects.count() == 1


def test_what_is_refused_stands_beside_its_field_and_nothing_typed_is_lost(cast, as_user):
    client = as_user(cast.holder)
    planting = PlantingFactory(plot=cast.plot, crop=CropFactory(name="Basil"))
    sent = told(cast, work="harvest", planting=planting.pk, amount="4000", unit="kg", note="Lovely")
    page = client.post(address(cast), sent)
    assert page.status_code == 422
    assert page.context["form"].errors["amount"] == [
        "4000\u00a0kg from one plot in one picking cannot be; is the unit right?"
    ]
    assert "Lovely" in page.content.decode()
    page = client.post(address(cast), {**sent, "amount": "", "day": "2024-06-06"})
    assert page.context["form"].errors["day"] == [
        "This day is still to come: today is June 5, 2024 at the garden."
    ]


def test_what_is_done_once_is_not_offered_again_and_what_is_picked_is(cast, as_user):
    client, planting = as_user(cast.holder), PlantingFactory(plot=cast.plot)
    PlantingFactory(plot=cast.plot)
    offered = {}
    for work in ("thin", "harvest"):
        client.post(address(cast), told(cast, work=work, planting=planting.pk))
        offered[work] = client.get(address(cast), {"work": work}).context["form"]["planting"].value()
    assert offered == {"thin": None, "harvest": planting.pk}


def test_a_bed_of_all_is_nobodys_so_logs_there_are_changed_by_who_wrote_them(cast, as_user):
    bed = PlotFactory(garden=cast.garden, label="Herbs", kind="communal")
    as_user(cast.holder).post(address(cast), told(cast, plots=bed.pk))
    log = WorkLog.objects.get()
    people = ("holder", "co_gardener", "member", "coordinator", "deputy")
    changed = {
        name: as_user(getattr(cast, name)).get(address(cast, "log_edit", log.pk)).status_code
        for name in people
    }
    assert changed == dict(zip(people, (200, 403, 403, 200, 200), strict=True))


def test_what_was_kept_tells_its_sowing_and_another_day(cast, as_user):
    planting = PlantingFactory(plot=cast.plot, successions=3, crop=CropFactory(name="Lettuce"))
    sent = told(cast, work="sow", planting=planting.pk, succession=2, day="2024-06-04")
    page = as_user(cast.holder).post(address(cast), sent, follow=True).content.decode()
    assert "Kept: Sowed Lettuce, plot A1, sowing 2, on June 4, 2024" in page


def test_several_plots_are_named_by_tick_row_or_label(cast, as_user):
    beds = [PlotFactory(garden=cast.garden, label=f"B{n}", kind="communal") for n in (1, 2, 3)]
    client = as_user(cast.coordinator)
    together = f"{beds[0].pk}-{beds[1].pk}"
    sent = told(cast, author=cast.coordinator.pk, plots=[], rows=together, labels="b3; A1", work="weed")
    page = client.post(address(cast), sent, follow=True)
    assert sorted(log.plot.label for log in WorkLog.objects.all()) == ["A1", "B1", "B2", "B3"]
    assert "Weeded plots" in page.content.decode()
    undo = address(cast, "log_remove", WorkLog.objects.order_by("pk")[0].pk) + "?together=1"
    client.post(undo)
    assert not WorkLog.objects.standing().exists()
    Plot.objects.filter(label="B3").update(retired_on=date(2024, 1, 1))
    client.post(undo.replace("remove", "restore"))
    assert not WorkLog.objects.standing().exists()  # one may not stand any more, so none is put back
    wrong = client.post(address(cast), {**sent, "key": uuid4(), "labels": "Z9"})
    assert wrong.context["form"].errors["labels"] == ["You can log at no plot called Z9."]


def test_a_form_sent_again_after_going_back_is_a_second_log_only_when_it_says_so(cast, as_user):
    client, sent = as_user(cast.holder), told(cast, amount="3", unit="cans")
    client.post(address(cast), sent)
    client.post(address(cast), sent)
    assert WorkLog.objects.count() == 1
    changed = client.post(address(cast), {**sent, "amount": "5"})
    assert changed.status_code == 422
    assert "This was kept before as: Watered plot A1, 3 cans." in changed.content.decode()
    client.post(address(cast), {**sent, "amount": "5", "key": changed.context["form"]["key"].value()})
    assert [log.amount for log in WorkLog.objects.order_by("pk")] == [3.0, 5.0]


def test_hours_count_and_are_given_back_and_a_change_is_in_the_history(cast, as_user):
    client = as_user(cast.holder)
    client.post(address(cast), told(cast, work="hours", plots="", minutes="2:30", note="Hedge"))
    log = WorkLog.objects.get()
    assert HoursDone.objects.get().minutes == 150
    client.post(address(cast, "log_edit", log.pk), {"work": "hours", "day": "2024-06-04", "minutes": "2"})
    standing = HoursDone.objects.get(removed_at=None)
    assert (standing.minutes, standing.day) == (120, date(2024, 6, 4))
    page = client.get(address(cast, "log", log.pk)).content.decode()
    assert "The log was changed" in page
    client.post(address(cast, "log_remove", log.pk))
    assert not HoursDone.objects.filter(removed_at=None).exists()


def test_who_did_it_stays_who_it_was_unless_somebody_says_that_they_did(cast, as_user):
    as_user(cast.holder).post(address(cast), told(cast, work="weed"))
    edit = address(cast, "log_edit", WorkLog.objects.get().pk)
    client, changed = as_user(cast.co_gardener), {"work": "weed", "plot": cast.plot.pk, "day": "2024-06-04"}
    client.post(edit, {**changed, "person": ""})
    assert WorkLog.objects.get().person == cast.holder
    assert f'<option value="{cast.co_gardener.pk}">I did</option>' in client.get(edit).content.decode()
    client.post(edit, {**changed, "person": cast.co_gardener.pk})
    assert WorkLog.objects.get().person == cast.co_gardener


@pytest.mark.parametrize("count", [1, 3])
def test_form_and_log_take_the_same_queries_for_one_planting_and_for_three(
    cast, as_user, count, django_assert_num_queries
):
    client = as_user(cast.holder)
    for _number in range(count):
        planting = PlantingFactory(plot=cast.plot)
        client.post(address(cast), told(cast, work="weed", note="Dock"))
        client.post(address(cast), told(cast, work="thin", planting=planting.pk))
    with django_assert_num_queries(21):
        client.get(address(cast), {"work": "sow"})
    with django_assert_num_queries(10):
        client.get(address(cast, "log", WorkLog.objects.latest("pk").pk))


def test_the_form_says_what_is_cleared_and_offers_no_more_what_is_gone(cast, as_user):
    """Cleared with its plot: not in a new log, still in the change of an old one."""
    client = as_user(cast.holder)
    planting = PlantingFactory(plot=cast.plot, year=2024)
    client.post(address(cast), told(cast, work="sow", planting=planting.pk, day="2024-05-20"))
    client.post(address(cast), told(cast, work="thin", planting=planting.pk, day="2024-06-03"))
    offered = f">{planting.crop.name}, spring and summer</option>"
    page = client.get(address(cast), {"work": "clear"}).content.decode()
    assert "means the whole plot: everything that grows there now" in page
    assert offered in page
    too_soon = client.post(address(cast), told(cast, work="clear", day="2024-06-02"))
    assert too_soon.status_code == 422
    assert "On June 3, 2024 it was still “thinned”" in too_soon.content.decode()
    client.post(address(cast), told(cast, work="clear", day="2024-06-04"))
    assert offered not in client.get(address(cast)).content.decode()
    thinned = WorkLog.objects.get(work="thin")
    assert offered in client.get(address(cast, "log_edit", thinned.pk)).content.decode()
    refused = client.post(address(cast), told(cast, work="harvest", planting=planting.pk))
    assert refused.status_code == 422
    assert "This planting was cleared on June 4, 2024" in refused.content.decode()
