"""Typing logs in from paper: all lines or none, each once, as logs of who did the work."""

import re
from datetime import date

import pytest
from django.urls import reverse

from plots.models import HoursDone, Membership
from plots.powers import Power
from schedules.models import WorkLog
from tests.factories import AssignmentFactory, CropFactory, PlantingFactory

WAY = "/g/linden-row/log/from-paper/"


@pytest.fixture(autouse=True)
def today(time_machine):
    time_machine.move_to("2024-06-05T18:00+00:00", tick=False)


@pytest.fixture
def ground(cast):
    """Two plots: A1 of Hollis with carrots in spring and autumn, A10 of Ruth."""
    carrot = CropFactory(name="Carrot", slug="carrot")
    plantings = [PlantingFactory(plot=cast.plot, crop=carrot, turn=turn) for turn in ("spring", "autumn")]
    season = cast.assignment.season
    other = AssignmentFactory(plot__garden=cast.garden, plot__label="A10", season=season)
    return {"plantings": plantings, "other": other}


def opened(client) -> dict[str, str]:
    """The keys of the lines, as the page opens."""
    return dict(re.findall(r'name="(\d+-key)" value="([^"]+)"', client.get(WAY).content.decode()))


def lines(*typed: str) -> dict[str, str]:
    """Fields of lines written as `plot | day | work | what | amount | person | note`."""
    names = ("plot", "day", "work", "what", "amount", "person", "note")
    return {
        f"{number}-{name}": text.strip()
        for number, line in enumerate(typed, start=1)
        for name, text in zip(names, line.split("|"), strict=False)
    }


def kept() -> list[tuple[object, ...]]:
    rows = WorkLog.objects.order_by("pk").values_list(
        "plot__label", "day", "work", "planting", "amount", "unit", "person__name", "note"
    )
    return list(rows)


def test_lines_become_logs_of_who_did_it_written_down_from_paper(cast, ground, as_user):
    run = as_user(cast.coordinator)
    keys = opened(run)
    typed = lines(
        "a1 | 6/3 | w | | 3 cans | cori | dry",
        " | | th | car sp",
        "a10 | 2 | we",
        "a1 | | h | | 2:30 | | paths",
        " | | sc | carr au | | | Holes in leaves",
    )
    answer = run.post(WAY, {**keys, **typed})
    assert (answer.status_code, answer.headers["Location"]) == (302, WAY)
    spring, autumn = (planting.pk for planting in ground["plantings"])
    june = {day: date(2024, 6, day) for day in (2, 3)}
    assert kept() == [
        ("A1", june[3], "water", None, 3.0, "cans", "Corin", "dry"),
        ("A1", june[3], "thin", spring, None, "", "Corin", ""),
        ("A10", june[2], "weed", None, None, "", ground["other"].holder.name, ""),
        ("A1", june[2], "hours", None, None, "", "Hollis", "paths"),
        ("A1", june[2], "scout", autumn, None, "", "Hollis", ""),
    ]
    assert set(WorkLog.objects.values_list("made_by", "from_paper")) == {(cast.coordinator.pk, True)}
    assert WorkLog.objects.get(work="scout").sighting.seen == "Holes in leaves"
    assert HoursDone.objects.get().minutes == 150
    page = run.get(WAY).content.decode()
    assert ("5 logs are kept." in page, "Watered plot A1, 3 cans" in page) == (True, True)
    log = run.get(WorkLog.objects.get(work="water").get_absolute_url()).content.decode()
    assert "Cora, from paper" in log
    # Sent again, as a browser does that was gone back in.
    assert run.post(WAY, {**keys, **typed}).status_code == 302
    assert WorkLog.objects.count() == 5


def test_nothing_is_kept_until_all_is_right_and_what_is_right_says_so(cast, ground, as_user):
    run = as_user(cast.coordinator)
    keys = opened(run)
    typed = lines(
        "a1 | 6/3 | w | | 10 min",
        " | | p | car | 4000 kg",
        " | | p | car sp | 4000 kg | zoe",
        " | | p | car sp | 4000 kg",
        " | 6/9/24 | we | | | hol",
    )
    answer = run.post(WAY, {**keys, **typed})
    assert (answer.status_code, WorkLog.objects.exists()) == (422, False)
    told = {line.number: dict(line.errors) for line in answer.context["form"].lines if line.errors}
    assert told == {
        2: {"what": ["“car” may be Carrot spring and summer, Carrot autumn. Type more of it."]},
        3: {"person": ["No member is called “zoe”."]},
        5: {"day": ["This day is still to come: today is June 5, 2024 at the garden."]},
    }
    page = answer.content.decode()
    assert "3 lines need another look" in page
    assert page.count("Says the same as a line above") == 1
    assert page.count("Watered plot A1, 10 min at the hose") == 1
    assert all(f'value="{text}"' in page for text in ("4000 kg", "zoe", "6/9/24"))
    assert all(key in page for key in keys.values())
    right = lines("a1 | 6/3 | w | | 10 min", " | | p | car sp | 4 kg", " | 6/4 | we", "", "")
    gone = {f"{n}-{name}": "" for n in (4, 5) for name in ("plot", "day", "work", "what", "amount", "person")}
    assert run.post(WAY, {**keys, **right, **gone}).status_code == 302
    assert WorkLog.objects.count() == 3


def test_what_the_garden_cannot_take_is_refused_on_its_line(cast, ground, as_user):
    run = as_user(cast.coordinator)
    answer = run.post(
        WAY,
        {
            **opened(run),
            **lines(
                "a1 | 6/3 | p | car sp | 4000 kg",
                " | | c | car sp",
                " | 6/4 | th | car sp",
                " | | n | | 3 kg | | x",
            ),
        },
    )
    told = {line.number: dict(line.errors) for line in answer.context["form"].lines if line.errors}
    assert told == {
        1: {
            "amount": ["4000\N{NO-BREAK SPACE}kg from one plot in one picking cannot be; is the unit right?"]
        },
        3: {"day": ["This planting was cleared on June 3, 2024."]},
        4: {"amount": ["“note” has no amount here; say it in the note."]},
    }
    assert not WorkLog.objects.exists()


def test_lines_may_only_be_read_and_nothing_typed_is_nothing_kept(cast, ground, as_user):
    run = as_user(cast.coordinator)
    keys = opened(run)
    read = run.post(WAY, {**keys, **lines("a1 | 3 | w | | 2 cans"), "look": "1"})
    assert (read.status_code, WorkLog.objects.exists()) == (200, False)
    assert "Watered plot A1, 2 cans" in read.content.decode()
    empty = run.post(WAY, keys)
    assert (empty.status_code, "There is nothing on the lines yet." in empty.content.decode()) == (200, True)
    long = run.post(WAY, {**keys, "7-plot": "x" * 99})
    assert (long.status_code, [line.number for line in long.context["form"].lines if line.errors]) == (
        422,
        [7],
    )
    assert run.post(WAY, lines("a1 | 3 | w")).status_code == 302  # a key that got lost is made anew


def test_a_line_kept_before_and_changed_since_is_asked_about(cast, ground, as_user):
    run = as_user(cast.coordinator)
    keys = opened(run)
    run.post(WAY, {**keys, **lines("a1 | 3 | w | | 2 cans")})
    changed = run.post(WAY, {**keys, **lines("a1 | 3 | w | | 3 cans")})
    assert changed.status_code == 422
    (error,) = changed.context["form"].lines[0].errors["work"]
    assert (
        error == "This line was kept before as: Watered plot A1, 2 cans. Keep it once more for a second log."
    )
    again = dict(re.findall(r'name="(\d+-key)" value="([^"]+)"', changed.content.decode()))
    assert run.post(WAY, {**again, **lines("a1 | 3 | w | | 3 cans")}).status_code == 302
    assert [row[4] for row in kept()] == [2.0, 3.0]


def test_hours_of_others_want_trust_with_workdays(cast, ground, as_user):
    Membership.objects.filter(user=cast.deputy).update(powers=[Power.CARE])
    helper = as_user(cast.deputy)
    answer = helper.post(WAY, lines("a1 | 3 | h | | 2", " | | h | | 2 | dar"))
    told = {line.number: dict(line.errors) for line in answer.context["form"].lines if line.errors}
    words = "Hours of others are written down by who is trusted with workdays."
    assert told == {1: {"person": [words]}}
    refused = as_user(cast.holder).get(WAY)
    assert (refused.status_code, "helpers trusted with care" in refused.content.decode()) == (403, True)


def test_the_page_costs_the_same_queries_however_much_grows(cast, ground, as_user, django_assert_num_queries):
    run = as_user(cast.coordinator)
    run.get(WAY)
    for more in (0, 3):
        for _planting in range(more):
            PlantingFactory(plot=cast.plot, crop=CropFactory())
        with django_assert_num_queries(12):
            run.get(reverse("schedules:type_logs", args=["linden-row"]))
