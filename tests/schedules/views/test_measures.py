"""How a garden measures: read by all, written by who is trusted with the settings."""

from datetime import date

import pytest
from django.urls import reverse

from schedules.models import BunchWeight, HoseFlow
from tests.factories import CropFactory


@pytest.fixture(autouse=True)
def today(time_machine):
    time_machine.move_to("2024-06-05T18:00+00:00", tick=False)


def test_a_hose_a_can_and_bunches_are_measured_again_and_taken_off_the_list(cast, as_user):
    client, chard = as_user(cast.coordinator), CropFactory(name="Swiss chard")

    def address(name, *more):
        return reverse(f"schedules:{name}", args=[cast.garden.slug, *more])

    hose = {"name": "North tap", "litres": "2.5", "seconds": "30", "measured_on": "2024-06-05"}
    assert client.post(address("measure_hose"), {**hose, "seconds": "0"}).status_code == 422
    ahead = client.post(address("measure_hose"), {**hose, "measured_on": "2024-06-06"})
    assert ahead.context["form"].errors == {"measured_on": ["This day is still to come."]}
    client.post(address("measure_hose"), hose)
    client.post(address("measure_hose"), {**hose, "name": "north  TAP", "seconds": "20"})
    old, new = HoseFlow.objects.order_by("pk")
    assert (old.removed_at is None, new.removed_at) == (False, None)
    client.post(address("measure_can"), {"litres": "1.5"})
    bunch = {"crop": chard.pk, "bunches": "4", "weight": "2", "unit": "lb", "measured_on": "2024-06-05"}
    assert client.post(address("measure_bunch"), {**bunch, "weight": "900"}).status_code == 422
    client.post(address("measure_bunch"), bunch)
    assert BunchWeight.objects.get().grams_each == 226.796185
    page = as_user(cast.member).get(address("measures")).content.decode()
    assert [
        text in page
        for text in ("7.5\u00a0gal a minute", "A can counts as 1.5\u00a0gal", "8\u00a0oz a bunch")
    ] == [True] * 3
    assert "Take it off the list" not in page
    client.post(address("measure_remove", "hose", new.pk))
    assert not HoseFlow.objects.standing().exists()
    client.post(address("measure_restore", "hose", old.pk))
    assert [hose.pk for hose in HoseFlow.objects.standing()] == [old.pk]
    taken = client.post(address("measure_restore", "hose", new.pk), follow=True).content.decode()
    assert "It was measured anew meanwhile." in taken
    assert client.post(address("measure_remove", "tub", new.pk)).status_code == 404


def test_a_neighbour_is_asked_and_sees_it_in_their_week(cast, as_user):
    address = reverse("plots:stand_ins", args=[cast.garden.slug])
    client = as_user(cast.holder)
    asked = {"assignment": cast.assignment.pk, "person": cast.member.pk, "note": "Water, please"}
    wrong = client.post(address, {**asked, "first_day": "2024-06-05", "last_day": "2024-12-05"})
    assert wrong.context["form"].errors["last_day"][0].startswith("At most 100 days")
    assert "Water, please" in wrong.content.decode()
    client.post(address, {**asked, "first_day": "2024-06-05", "last_day": "2024-06-09"})
    neighbour = as_user(cast.member)
    week = reverse("schedules:week", args=[cast.garden.slug])
    page = neighbour.get(week).content.decode()
    assert "until June 9, 2024 for Hollis" in page
    assert neighbour.get(reverse("plots:plot", args=[cast.garden.slug, cast.plot.pk])).status_code == 404
    stand_in = cast.assignment.stand_ins.get()
    assert (stand_in.first_day, stand_in.asked_by) == (date(2024, 6, 5), cast.holder)
    neighbour.post(reverse("plots:stand_in_end", args=[cast.garden.slug, stand_in.pk]))
    assert "for Hollis" not in neighbour.get(week).content.decode()
