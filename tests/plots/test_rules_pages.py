"""A garden's rules: read by every member, changed by who keeps the settings, and every change kept."""

from decimal import Decimal

import pytest

from plots.forms.rules import rules_form
from plots.models import BLOCKS, Change, GardenRules, fields_in
from plots.wording.rules import BLOCK_TITLES, rules_in_words
from tests.texts import text_of


def typed(cast, block: str, **changes: str) -> dict[str, str]:
    """What the form of the block sends when a person changes just this."""
    form = rules_form(block)(instance=GardenRules.objects.get(garden=cast.garden))
    values = {field.name: field.value() for field in form}
    return {**{name: value for name, value in values.items() if value not in (None, False)}, **changes}


def test_every_rule_stands_in_one_block_with_a_title():
    columns = {field.name for field in GardenRules._meta.concrete_fields} - {"garden"}
    assert sorted(columns) == sorted(name for block in BLOCKS for name in fields_in(block))
    assert list(BLOCK_TITLES) == list(BLOCKS)


def test_a_member_reads_them(cast, as_user):
    page = as_user(cast.member).get("/g/linden-row/rules/")
    assert "Hours of work owed in a season 8" in text_of(page)
    assert "Change:" not in text_of(page)


def test_a_change_is_kept_and_undone_once(cast, as_user):
    client = as_user(cast.coordinator)
    data = typed(cast, "hours", hours_owed="6", hours_owed_by="plot", hours_due="30 June")
    assert client.post("/g/linden-row/rules/hours/", data).status_code == 302
    rules = GardenRules.objects.get(garden=cast.garden)
    assert (rules.hours_owed, rules.hours_owed_by, rules.hours_due) == (Decimal(6), "plot", "06-30")
    change = Change.objects.get()
    assert change.before == {"hours_owed": "8", "hours_owed_by": "member", "hours_due": ""}
    page = text_of(client.get("/g/linden-row/rules/"))
    assert "hours of work owed in a season from 8 to 6" in page
    assert "owed until now June 30" in page

    undo = f"/g/linden-row/history/{change.pk}/undo/"
    client.post(undo)
    rules.refresh_from_db()
    assert (rules.hours_owed, rules.hours_owed_by, rules.hours_due) == (Decimal(8), "member", "")
    assert "undone already" in text_of(client.post(undo, follow=True))
    assert Change.objects.filter(undoes=change).count() == 1


def test_what_was_changed_again_is_not_undone(cast, as_user):
    client = as_user(cast.coordinator)
    for hours in ("6", "4"):
        client.post("/g/linden-row/rules/hours/", typed(cast, "hours", hours_owed=hours))
    first = Change.objects.order_by("pk").first()
    answer = client.post(f"/g/linden-row/history/{first.pk}/undo/", follow=True)
    assert "It was changed again since" in text_of(answer)
    assert GardenRules.objects.get(garden=cast.garden).hours_owed == 4


@pytest.mark.parametrize(
    ("field", "wrong"), [("hours_due", "5/10"), ("hours_owed", "-1"), ("hours_owed", "many")]
)
def test_a_wrong_value_is_said_beside_its_field(cast, as_user, field, wrong):
    data = typed(cast, "hours", **{field: wrong})
    answer = as_user(cast.coordinator).post("/g/linden-row/rules/hours/", data)
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == [field]
    assert Change.objects.count() == 0


def test_rules_in_words_say_what_is_not_set(cast):
    cast.garden.rules.currency, cast.garden.rules.dues_per_plot = "€", Decimal(35)
    said = {rule.label: rule.value for block in rules_in_words(cast.garden.rules) for rule in block.rules}
    assert said["Dues for a plot"] == "€35"
    assert said["Water is turned on"] == "not set"
    assert said["Hours to answer an offer"] == "48"
    assert said["Anybody may sign up on the public page"] == "no"


def test_a_priority_needs_the_question_that_decides_it(cast, as_user):
    client = as_user(cast.coordinator)
    address = "/g/linden-row/rules/waiting/"
    answer = client.post(address, typed(cast, "waiting", priority_1="no-plot", priority_2="near"))
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == ["near_question"]
    asked = typed(cast, "waiting", priority_2="near", near_question="Do you live within two blocks?")
    assert client.post(address, asked).status_code == 302
