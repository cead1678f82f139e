"""What was changed: kept with who, when and why, told in words, and taken back once where that is safe."""

import ast
from datetime import date
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from plots import queries
from plots.models import Change, GardenRules, Role
from plots.service import record, save_changes, undo
from plots.service.history import kept
from plots.service.undo import UNDO
from plots.wording.history import WHAT, Line
from tests.factories import MembershipFactory, SeasonFactory
from tests.project.source import Module, modules
from tests.texts import text_of


def codes_in(module: Module) -> set[str]:
    """Every text that a call keeping a change gives as `what=`."""
    calls = [node for node in module.nodes if isinstance(node, ast.Call)]
    keeping = [call for call in calls if _name(call.func) in ("record", "record_fields", "save_changes")]
    given = [word.value for call in keeping for word in call.keywords if word.arg == "what"]
    return {text.value for text in given if isinstance(text, ast.Constant)}


def _name(function: ast.expr) -> str:
    return getattr(function, "attr", getattr(function, "id", ""))


def test_every_code_has_its_words():
    found = {code for module in modules() for code in codes_in(module)}
    assert {"plot-given", "garden-made"} <= found
    assert sorted((found | set(UNDO)) - set(WHAT)) == []


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (date(2024, 5, 1), "2024-05-01"),
        (Decimal("8.00"), "8"),
        (Role.HELPER, "helper"),
        ({"b"}, ["b"]),
        (None, None),
        (True, True),
        (1.5, 1.5),
    ],
)
def test_values_are_kept_as_json_gives_them_back(value, expected):
    assert kept(value) == expected


def test_a_change_is_told_in_words(cast, time_machine):
    time_machine.move_to("2024-05-01T03:00:00Z", tick=False)
    record(
        garden=cast.garden,
        by=cast.coordinator,
        about=cast.plot,
        what="plot-changed",
        before={"holder": cast.holder, "width_m": 3.048, "retired_on": date(2024, 3, 1), "powers": ["care"]},
        after={"holder": None, "width_m": 1.524, "retired_on": None, "powers": ["care", "money"]},
        why=" moved away ",
    )
    (told,) = queries.changes_of(cast.garden, cast.plot)
    assert (told.by, told.about, told.why) == ("Cora", "A1", "moved away")
    assert told.at == "April 30, 2024, 9 p.m."  # at the garden, not in UTC
    assert set(told.lines) == {  # PostgreSQL keeps its own order of keys
        Line("held by", "Hollis", ""),
        Line("width", "10\u00a0ft", "5\u00a0ft"),
        Line("given up on", "March 1, 2024", ""),
        Line("powers", "care rounds and their matters", "care rounds and their matters, dues"),
    }


def test_its_author_is_named_when_the_account_is_gone(cast):
    other = MembershipFactory(garden=cast.garden, user__name="Ada").user
    record(garden=cast.garden, by=other, about=cast.plot, what="plot-changed")
    other.delete()
    record(garden=cast.garden, by=None, by_name="Bo, by link", about=cast.plot, what="plot-changed")
    assert [told.by for told in queries.changes_of(cast.garden, cast.plot)] == ["Bo, by link", "Ada"]


def test_nothing_is_kept_when_nothing_changed(cast):
    assert (
        save_changes(garden=cast.garden, by=cast.coordinator, row=cast.garden.rules, what="rules-changed")
        is None
    )
    assert Change.objects.count() == 0


def set_hours(cast, hours: int) -> Change:
    rules = GardenRules.objects.get(garden=cast.garden)
    rules.hours_owed = hours
    return save_changes(garden=cast.garden, by=cast.coordinator, row=rules, what="rules-changed")


def test_only_the_latest_of_a_value_offers_to_be_undone(cast):
    for hours in (6, 4):
        set_hours(cast, hours)
    rules = GardenRules.objects.get(garden=cast.garden)
    assert [told.undoable for told in queries.changes_of(cast.garden, rules)] == [True, False]


def test_undoing_goes_back_step_by_step(cast):
    first, second = set_hours(cast, 6), set_hours(cast, 4)
    undo(change=second, by=cast.coordinator)
    rules = GardenRules.objects.get(garden=cast.garden)
    assert [told.undoable for told in queries.changes_of(cast.garden, rules)] == [False, False, True]
    undo(change=first, by=cast.coordinator)
    assert GardenRules.objects.get(garden=cast.garden).hours_owed == 8
    with pytest.raises(ValidationError, match="undone already"):
        undo(change=first, by=cast.coordinator)


def test_what_is_gone_cannot_be_undone(cast):
    season = SeasonFactory(garden=cast.garden)
    season.name = "Other"
    change = save_changes(garden=cast.garden, by=cast.coordinator, row=season, what="season-changed")
    season.delete()
    with pytest.raises(ValidationError, match="no longer there"):
        undo(change=change, by=cast.coordinator)


def test_a_name_taken_meanwhile_is_said(cast):
    season = SeasonFactory(garden=cast.garden, name="One")
    season.name = "Two"
    change = save_changes(garden=cast.garden, by=cast.coordinator, row=season, what="season-changed")
    SeasonFactory(garden=cast.garden, name="One")
    with pytest.raises(ValidationError, match="already has a season of this name"):
        undo(change=change, by=cast.coordinator)


@pytest.mark.parametrize("changes", [1, 3])
def test_the_page_asks_the_database_the_same_however_much_there_is(
    cast, as_user, changes, django_assert_num_queries
):
    for hours in range(changes):
        set_hours(cast, hours)
    client = as_user(cast.coordinator)
    client.get("/g/linden-row/history/")
    with django_assert_num_queries(5):
        page = client.get("/g/linden-row/history/?kind=rules-changed")
    assert text_of(page).count("Rules were changed:") == changes


def test_the_year_is_the_gardens_own(cast, as_user, time_machine):
    time_machine.move_to("2024-01-01T03:00:00Z", tick=False)
    set_hours(cast, 6)
    assert queries.years_of_changes(cast.garden) == [2023]
    assert len(queries.changes_in(cast.garden, 2023)) == 1
    file = (
        as_user(cast.coordinator).get("/g/linden-row/history/?year=2023&as=csv").content.decode("utf-8-sig")
    )
    assert file.splitlines()[1].split(",")[1:3] == ["Rules were changed", "2023-12-31T20:00:00"]


def test_a_page_may_show_only_what_its_readers_may_know(cast):
    record(garden=cast.garden, by=cast.coordinator, about=cast.member, what="role-changed")
    record(garden=cast.garden, by=cast.coordinator, about=cast.member, what="hours-excused")
    told = queries.changes_of(cast.garden, cast.member, only=["hours-excused"])
    assert [change.code for change in told] == ["hours-excused"]
