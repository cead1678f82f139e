"""What a plot costs for a part of a season, and what a person makes of the proposal."""

from datetime import date
from decimal import Decimal

import pytest
from django.urls import reverse

from plots import service
from plots.dues import Held, PartRule, Share, middle_of, season_share
from plots.models import Change, Due, GardenRules
from tests.factories import MembershipFactory
from tests.texts import text_of

SEASON = date(2024, 4, 1), date(2024, 10, 31)  # 214 days, seven months


@pytest.mark.parametrize(
    ("rule", "began", "until", "share"),
    [
        ("whole", date(2024, 9, 1), None, (1, 1)),
        ("days", date(2023, 1, 1), None, (214, 214)),
        ("days", date(2024, 10, 31), date(2025, 1, 1), (1, 214)),
        ("days", date(2024, 3, 1), date(2024, 3, 20), (0, 214)),
        ("months", date(2024, 6, 2), None, (4, 7)),
        ("months", date(2024, 6, 1), None, (5, 7)),
        ("months", date(2024, 4, 1), date(2024, 6, 1), (3, 7)),
        ("half", date(2024, 7, 16), None, (1, 1)),
        ("half", date(2024, 7, 17), None, (1, 2)),
        ("half", date(2024, 4, 1), date(2024, 5, 1), (1, 1)),
    ],
)
def test_the_share_of_a_season(rule, began, until, share):
    assert season_share(PartRule(rule), Held(began, until, *SEASON)) == Share(*share)


@pytest.mark.parametrize("rule", [PartRule.DAYS, PartRule.MONTHS])
def test_the_shares_of_a_hand_over_make_up_the_whole(rule):
    changes = [date(2024, 4, 2), date(2024, 6, 30), date(2024, 7, 1), date(2024, 10, 31)]
    for day in changes:
        before = season_share(rule, Held(SEASON[0], date.fromordinal(day.toordinal() - 1), *SEASON))
        after = season_share(rule, Held(day, None, *SEASON))
        assert before.part + after.part == before.of == after.of, day
    across_new_year = date(2024, 11, 15), date(2025, 2, 20)
    assert season_share(PartRule.MONTHS, Held(date(2024, 12, 24), None, *across_new_year)) == Share(2, 4)
    assert middle_of(*SEASON) == date(2024, 7, 16)


@pytest.mark.django_db
def test_after_a_hand_over_amounts_are_proposed_and_a_person_confirms_them(cast, as_user, time_machine):
    time_machine.move_to("2024-07-01T18:00Z", tick=False)
    garden, held = cast.garden, cast.assignment
    GardenRules.objects.filter(garden=garden).update(dues_per_plot=60, dues_part="days")
    garden.rules.refresh_from_db()
    run = as_user(cast.coordinator)

    def url(name, *args):
        return reverse(f"plots:{name}", args=[garden.slug, *args])

    run.post(url("dues_draw_up"), {"season": held.season_id})
    heir = MembershipFactory(garden=garden, user__name="Ivo Ash").user
    given = {"last_day": "2024-07-01", "holder": heir.pk, "why": "Moved away"}
    page = run.post(url("hand_over", held.plot_id, held.pk), given, follow=True)
    assert "What is due for the rest of the season is proposed under “Dues”." in text_of(page)
    following = held.plot.assignments.get(holder=heir)
    assert service.draw_up_dues(season=held.season, by=cast.coordinator, today=date(2024, 7, 1)) == 0

    assert "2 plots are held for a part of the season" in text_of(run.get(url("dues")))
    table = run.get(url("dues_part"), {"now": "none", "as": "csv"}).content.decode().splitlines()
    assert table[1:] == [
        f"A1,Ivo Ash,{held.season.name},2024-07-02,,60.00,30.00,Held on 183 of the season's 366 days."
    ]
    wrong = run.post(url("due_part", following.pk), {"amount": "thirty"})
    assert (wrong.status_code, 'value="thirty"' in wrong.content.decode()) == (422, True)
    run.post(url("due_part", following.pk), {"amount": "25"})
    run.post(url("due_part", held.pk), {"amount": "30.00"})
    kept = {due.person.name: (due.amount, due.due_on) for due in Due.objects.select_related("person")}
    assert kept == {
        "Ivo Ash": (Decimal("25.00"), date(2024, 7, 9)),
        "Hollis": (Decimal("30.00"), date(2024, 7, 8)),
    }
    assert "Nothing to decide" in text_of(run.get(url("dues_part")))

    lowered = Change.objects.get(what="due-changed")
    assert (lowered.before, lowered.after) == ({"amount": "60"}, {"amount": "30"})
    service.undo(change=lowered, by=cast.coordinator)
    former = Due.objects.get(person=cast.holder)
    assert former.amount == 60
    service.settle_due(due=former, state="paid", on=date(2024, 7, 1), by=cast.coordinator)
    assert run.post(url("due_part", held.pk), {"amount": "30"}).status_code == 422
