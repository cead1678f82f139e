"""Setting a new garden up: each step can be skipped, done later, and is never asked twice."""

import pytest

from plots.customs import customs_of
from plots.models import Change, SetUp
from plots.service import make_garden
from plots.set_up import State, Step, next_step, state_of, step_after
from tests.factories import GardenFactory, UserFactory
from tests.texts import text_of

HOME = "/g/hill/"


@pytest.fixture
def run(db, as_user):
    founder = UserFactory()
    make_garden(
        garden=GardenFactory.build(name="Hill", time_zone="Europe/Oslo", latitude=60), coordinator=founder
    )
    return as_user(founder)


@pytest.mark.parametrize(
    ("done", "skipped", "following"),
    [
        ([], [], Step.PLACE),
        (["place", "frost"], ["units"], Step.PLOTS),
        (["place", "frost", "plots", "season", "rules"], ["units"], Step.UNITS),
        (list(Step), [], None),
    ],
)
def test_what_comes_next(done, skipped, following):
    assert next_step(done, skipped) == following


def test_after_a_step_comes_what_is_open_behind_it_then_before_it():
    assert step_after(Step.FROST, ["frost"], []) == Step.PLOTS
    assert step_after(Step.RULES, ["rules"], ["units"]) == Step.PLACE
    assert step_after(Step.RULES, [*Step][1:], ["place"]) is None
    assert state_of(Step.UNITS, [], ["units"]) == State.SKIPPED


@pytest.mark.parametrize(
    ("zone", "customs"),
    [
        ("America/Chicago", ("us", "letter")),
        ("America/Indiana/Knox", ("us", "letter")),
        ("America/Mexico_City", ("metric", "letter")),
        ("America/Argentina/Salta", ("metric", "a4")),
        ("Australia/Hobart", ("metric", "a4")),
        ("UTC", ("metric", "a4")),
    ],
)
def test_units_and_paper_are_guessed_from_the_zone(zone, customs):
    assert customs_of(zone) == customs


def test_all_steps_from_the_first_to_the_last(run):
    assert "Go on: Where the garden lies" in text_of(run.get(f"{HOME}setup/"))
    place = {"place": "Alder Crossing", "time_zone": "Europe/Oslo", "latitude": "59.9"}
    for step, data, following in [
        ("place", {**place, "elevation_m": "12"}, "units"),
        ("units", {"skip": "yes", "units": "no such"}, "frost"),
        ("frost", {"skip": "yes"}, "plots"),
        ("plots", {}, "season"),
        ("season", {"name": "One", "starts_on": "2024-04-01", "ends_on": "2024-10-31"}, "rules"),
        ("rules", {}, ""),
    ]:
        answer = run.post(f"{HOME}setup/{step}/", data)
        assert answer.headers["Location"] == f"{HOME}setup/{following}{'/' if following else ''}"
    kept = SetUp.objects.get()
    assert (kept.done, kept.skipped) == (["place", "plots", "rules", "season"], ["frost", "units"])
    assert (kept.garden.place, kept.garden.elevation_m, kept.garden.units) == ("Alder Crossing", 12, "metric")
    assert [season.name for season in kept.garden.seasons.all()] == ["One"]
    assert set(Change.objects.values_list("what", flat=True)) == {
        "garden-made", "settings-changed", "season-changed",
    }  # fmt: skip


def test_it_is_taken_up_again_and_ends(run):
    page = text_of(run.get(f"{HOME}setup/"))
    assert page.count("not yet") == 6
    for step in Step:
        run.post(f"{HOME}setup/{step}/", {"skip": "yes"})
    assert text_of(run.get(f"{HOME}setup/")).count("left for later") == 6
    assert "Go on setting up the garden" in text_of(run.get(HOME))
    assert "back to the steps" in text_of(run.get(f"{HOME}plots/new/"))
    run.post(f"{HOME}setup/later/")
    assert "back to the steps" not in text_of(run.get(f"{HOME}plots/new/"))
    run.post(f"{HOME}setup/later/", {"close": "yes"})
    assert "setting up" not in text_of(run.get(HOME))


def test_a_mistake_keeps_what_was_typed_and_marks_nothing(run):
    answer = run.post(f"{HOME}setup/place/", {"place": "Alder", "time_zone": "Europe/Oslo", "latitude": "91"})
    assert answer.status_code == 422
    assert 'value="Alder"' in answer.content.decode()
    assert SetUp.objects.get().done == []
