"""The waiting list in the database: what cannot be written down, and what each verb leaves behind."""

from datetime import UTC, date, datetime, timedelta

import pytest
import time_machine
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from plots import queries, service
from plots.models import (
    AfterDecline,
    Answer,
    Assignment,
    Change,
    Household,
    InterestAnswer,
    LeftWhy,
    Membership,
    Offer,
    PlotChoice,
    ToldHow,
    User,
    WaitingEntry,
)
from plots.waiting import State
from tests.factories import (
    AssignmentFactory,
    GardenFactory,
    MembershipFactory,
    PlotFactory,
    SeasonFactory,
    WaitingFactory,
)

pytestmark = pytest.mark.django_db
NOW = datetime(2024, 6, 1, 18, tzinfo=UTC)
LATER = NOW + timedelta(hours=48)


@pytest.fixture
def clock():
    with time_machine.travel(NOW, tick=False) as clock:
        yield clock


@pytest.fixture
def garden(db, clock):
    return GardenFactory()


@pytest.fixture
def season(garden):
    return SeasonFactory(garden=garden)


@pytest.fixture
def plot(garden):
    return PlotFactory(garden=garden, label="A1")


@pytest.fixture
def keeper(garden):
    return MembershipFactory(garden=garden, role="coordinator").user


@pytest.fixture
def offer_to(plot, season, keeper):
    def make(entry, *, on=plot, **more) -> Offer:
        given = {"begins_on": date(2024, 6, 1), "ends_at": LATER, "by": keeper, **more}
        return service.make_offer(entry=entry, plot=on, season=season, **given)

    return make


def rule(garden, **rules):
    for name, value in rules.items():
        setattr(garden.rules, name, value)
    garden.rules.save()


def stand(garden, season):
    return queries.stands(queries.waiting_list(garden), season)[0]


def in_line(garden) -> list[str]:
    return [row.entry.name for row in queries.waiting_list(garden).rows if row.place]


def test_an_open_offer_cannot_be_written_down_for_who_left(garden, plot, season):
    gone = WaitingFactory(garden=garden)
    for why in (LeftWhy.CANCELLED, LeftWhy.ACCEPTED):
        gone.place, gone.left_at, gone.left_why = None, NOW, why
        gone.save()
        with pytest.raises(IntegrityError, match="offer_open_or_answered"), transaction.atomic():
            Offer.objects.create(
                entry=gone, place=gone, plot=plot, season=season, begins_on=date(2024, 6, 1), ends_at=LATER
            )


@pytest.mark.django_db(transaction=True)
def test_whoever_has_an_offer_cannot_lose_the_place_under_it(offer_to, garden):
    offer = offer_to(WaitingFactory(garden=garden))
    left = {"place": None, "left_at": NOW, "left_why": LeftWhy.CANCELLED}
    with pytest.raises(IntegrityError):
        WaitingEntry.objects.filter(pk=offer.entry_id).update(**left)


@pytest.mark.parametrize(
    "values", [{"left_at": NOW}, {"left_why": "cancelled"}, {"place": None}, {"placed_by": "luck"}]
)
def test_somebody_waits_or_has_left(garden, values):
    entry = WaitingFactory(garden=garden)
    with pytest.raises(IntegrityError), transaction.atomic():
        WaitingEntry.objects.filter(pk=entry.pk).update(**values)


def test_a_plot_and_a_person_have_one_open_offer_each(offer_to, garden, season, plot):
    first, second = WaitingFactory(garden=garden), WaitingFactory(garden=garden)
    offer = offer_to(first)
    other = PlotFactory(garden=garden, label="A2")
    same = {"season": season, "begins_on": offer.begins_on, "ends_at": LATER}
    for entry, on, constraint in [(second, plot, "plot_id|one_open"), (first, other, "place")]:
        with pytest.raises(IntegrityError, match=constraint), transaction.atomic():
            Offer.objects.create(entry=entry, place=entry, plot=on, **same)
    for entry, on in [(second, plot), (first, other)]:
        with pytest.raises(ValidationError):
            offer_to(entry, on=on, why="because")


def test_accepting_makes_a_member_who_holds_the_plot_and_leaves_the_list(offer_to, garden, plot, season):
    entry = WaitingFactory(garden=garden, name="Ana Peris", email="ana@example.org")
    offer = service.accept_offer(offer=offer_to(entry))
    entry.refresh_from_db()
    assert (entry.place, entry.left_why, offer.answer) == (None, LeftWhy.ACCEPTED, Answer.ACCEPTED)
    held = Assignment.objects.get()
    assert (held.plot, held.holder.name, held.holder.email, held.season) == (
        plot, "Ana Peris", "ana@example.org", season,
    )  # fmt: skip
    assert Membership.objects.filter(user=held.holder, garden=garden, role="member").exists()
    whats = set(Change.objects.values_list("what", flat=True))
    assert {"offer-made", "offer-accepted", "waiting-left", "plot-given"} <= whats
    with pytest.raises(ValidationError, match="no longer on the list"):
        offer_to(entry, on=PlotFactory(garden=garden), why="again")


@pytest.mark.parametrize(
    ("is_account", "holds", "email"), [(True, "Ana", "ana@example.org"), (False, "Eve", None)]
)
def test_an_address_that_anybody_could_type_takes_nobody_s_account(
    offer_to, garden, keeper, is_account, holds, email
):
    known = User.objects.create_user("ana", name="Ana", email="ana@example.org")
    offer = offer_to(WaitingFactory(garden=garden, name="Eve", email="ANA@example.org"))
    for by, says in [(None, "If that is you, sign in"), (keeper, "Say whether it is this person's")]:
        with pytest.raises(ValidationError, match=says):
            service.accept_offer(offer=offer, by=by)
    assert (known.memberships.count(), Assignment.objects.count()) == (0, 0)
    service.accept_offer(offer=offer, by=keeper, is_account=is_account)
    holder = Assignment.objects.get().holder
    assert (holder.name, holder.email, holder == known) == (holds, email, is_account)


def test_only_the_link_that_was_emailed_proves_the_address(garden):
    entry = WaitingFactory(garden=garden, email="ana@example.org")
    mailed, handed = (
        service.place_link(entry, emailed=emailed).rstrip("/").rpartition("/")[2] for emailed in (True, False)
    )
    assert service.entry_of_token(mailed) == service.entry_of_token(handed) == entry
    assert service.proves_email(token=mailed, entry=entry)
    assert not service.proves_email(token=handed, entry=entry)
    assert not service.proves_email(token="nonsense", entry=entry)
    entry.email = "eve@example.org"
    assert not service.proves_email(token=mailed, entry=entry), "it was sent to another address"
    entry.email = ""
    assert not service.proves_email(token=handed, entry=entry)


def test_an_account_found_by_its_address_keeps_to_the_cap_and_may_wait_for_more(offer_to, garden, season):
    rule(garden, plots_per_household=1)
    known = MembershipFactory(garden=garden, user__email="ana@example.org").user
    offer = offer_to(WaitingFactory(garden=garden, email="ana@example.org"))
    held = AssignmentFactory(plot__garden=garden, season=season, holder=known)
    with pytest.raises(ValidationError, match="as many plots as"):
        service.accept_offer(offer=offer, is_account=True)
    held.delete()
    other = WaitingFactory(garden=garden, member=known)
    assert service.accept_offer(offer=offer, is_account=True).entry.member == known
    other.refresh_from_db()
    assert other.waits


def test_out_of_turn_needs_a_reason_and_keeps_it(offer_to, garden):
    first, last = WaitingFactory(garden=garden, name="First"), WaitingFactory(garden=garden)
    with pytest.raises(ValidationError, match="First is next in line"):
        offer_to(last)
    offer = offer_to(last, why="Lent us the tractor shed")
    assert (offer.next_in_line, offer.why) == (first, "Lent us the tractor shed")
    change = Change.objects.get(what="offer-made")
    assert (change.why, change.after["next_in_line"]["name"]) == ("Lent us the tractor shed", "First")


def test_a_reason_typed_for_who_is_next_anyway_is_not_kept_as_an_exception(offer_to, garden):
    assert offer_to(WaitingFactory(garden=garden), why="it is their turn").why == ""


@pytest.mark.parametrize(
    ("rule_is", "line_after", "left"),
    [
        (AfterDecline.END, ["B", "A"], ""),
        (AfterDecline.KEEPS, ["A", "B"], ""),
        (AfterDecline.LEAVES, ["B"], LeftWhy.DECLINED),
    ],
)
def test_declining_does_to_the_place_what_the_rule_says(offer_to, garden, season, rule_is, line_after, left):
    rule(garden, after_decline=rule_is)
    entry, _other = WaitingFactory(garden=garden, name="A"), WaitingFactory(garden=garden, name="B")
    service.decline_offer(offer=offer_to(entry))
    entry.refresh_from_db()
    assert (in_line(garden), entry.left_why) == (line_after, left)
    assert stand(garden, season).next_row.entry.name == "B", "the same plot is not offered again"


def test_when_time_is_over_the_next_is_proposed_and_a_person_sends_it(
    offer_to, garden, season, keeper, clock
):
    silent = WaitingFactory(garden=garden, name="A")
    following = WaitingFactory(garden=garden, name="B")
    old = offer_to(silent)
    service.tell_offer(offer=old, how=ToldHow.PHONE, by=keeper)
    assert stand(garden, season).situation.state is State.OFFERED
    clock.move_to(LATER)
    now = stand(garden, season)
    assert (now.situation.state, now.next_row.entry, now.offer) == (State.RAN_OUT, following, old)
    assert in_line(garden) == ["B", "A"], "seen without any job having run"
    with pytest.raises(ValidationError, match="time to answer was over"):
        service.accept_offer(offer=old)
    offer_to(following, ends_at=LATER + timedelta(hours=48))
    old.refresh_from_db()
    silent.refresh_from_db()
    assert (old.answer, silent.placed_at, silent.placed_by) == (Answer.UNANSWERED, LATER, "unanswered")
    assert in_line(garden) == ["B", "A"]


def test_nobody_loses_a_place_by_an_offer_that_they_were_not_told_of(offer_to, garden, season, keeper, clock):
    rule(garden, after_silence=AfterDecline.LEAVES)
    entry = WaitingFactory(garden=garden, name="A")
    WaitingFactory(garden=garden, name="B")
    offer = offer_to(entry)
    clock.move_to(LATER)
    now = stand(garden, season)
    assert (now.situation.state, now.next_row.entry) == (State.RAN_OUT, entry)
    with pytest.raises(ValidationError, match="Give more time first"):
        service.tell_offer(offer=offer, how=ToldHow.POST, by=keeper)
    assert service.settle_offer(offer=offer, by=keeper).answer == Answer.WITHDRAWN
    assert in_line(garden) == ["A", "B"]
    assert stand(garden, season).next_row.entry == entry, "and the plot is offered to them again"


def test_a_plot_not_taken_is_offered_again_in_another_season(offer_to, garden, season, keeper, clock):
    rule(garden, after_decline=AfterDecline.KEEPS)
    service.decline_offer(offer=offer_to(entry := WaitingFactory(garden=garden)))
    assert stand(garden, season).next_row is None
    clock.move_to(datetime(2025, 2, 1, tzinfo=UTC))
    following = SeasonFactory(garden=garden, starts_on=date(2025, 1, 1), ends_on=date(2025, 12, 31))
    assert stand(garden, following).next_row.entry == entry


def test_who_may_be_in_line_twice_and_who_waits_for_what_there_is_not_are_marked(garden, plot):
    half = PlotChoice.objects.create(garden=garden, name="half plot")
    WaitingFactory(garden=garden, name="A", phone="(555) 0101", needs_accessible=True)
    WaitingFactory(garden=garden, name="B", phone="555-0101").choices.add(half)
    WaitingFactory(garden=garden, name="C", phone="1")
    rule(garden, plots_per_household=1)
    held = AssignmentFactory(plot__garden=garden)
    WaitingFactory(garden=garden, name="D", phone="1", member=held.holder)
    rows = queries.marked_rows(queries.waiting_list(garden))
    marks = {row.entry.name: (row.twice, row.unmet, row.full) for row in rows}
    assert marks == {
        "A": (True, True, False), "B": (True, True, False), "C": (False,) * 3, "D": (False, False, True),
    }  # fmt: skip


def test_who_looks_after_the_list_may_take_a_late_answer(offer_to, garden, keeper, clock):
    offer = offer_to(WaitingFactory(garden=garden))
    clock.move_to(LATER + timedelta(days=3))
    assert service.accept_offer(offer=offer, by=keeper).answer == Answer.ACCEPTED


def test_more_time_can_be_given_and_an_offer_taken_back_with_a_reason(offer_to, garden, keeper):
    entry = WaitingFactory(garden=garden)
    offer = service.extend_offer(offer=offer_to(entry), ends_at=LATER + timedelta(days=1), by=keeper)
    assert offer.ends_at == LATER + timedelta(days=1)
    for wrong in (LATER, NOW - timedelta(days=1)):
        with pytest.raises(ValidationError):
            service.extend_offer(offer=offer, ends_at=wrong, by=keeper)
    with pytest.raises(ValidationError, match="Say why"):
        service.withdraw_offer(offer=offer, by=keeper, why=" ")
    assert service.withdraw_offer(offer=offer, by=keeper, why="Pipe burst").answer == Answer.WITHDRAWN
    assert in_line(garden) == [entry.name]
    offer_to(entry)


def test_an_answer_counts_once(offer_to, garden):
    offer = offer_to(WaitingFactory(garden=garden))
    service.decline_offer(offer=offer)
    with pytest.raises(ValidationError, match="This offer is over: declined"):
        service.accept_offer(offer=offer)
    assert not Assignment.objects.exists()


def test_a_plot_given_by_hand_meanwhile_is_not_given_twice(offer_to, garden, plot, season):
    entry = WaitingFactory(garden=garden)
    offer = offer_to(entry)
    AssignmentFactory(plot=plot, season=season, began_on=date(2024, 6, 1))
    with pytest.raises(ValidationError, match="holds plot A1"):
        service.accept_offer(offer=offer)
    entry.refresh_from_db()
    assert entry.waits, "the place is not lost over it"


def test_a_household_keeps_to_its_cap_and_its_offers_count(offer_to, garden, season, plot):
    rule(garden, plots_per_household=1)
    home = Household.objects.create(garden=garden, name="Ash")
    one, two = (MembershipFactory(garden=garden, household=home).user for _n in range(2))
    first = WaitingFactory(garden=garden, name="A", member=one)
    WaitingFactory(garden=garden, name="B", member=two)
    WaitingFactory(garden=garden, name="C", household_of=two)
    PlotFactory(garden=garden, label="A2")
    WaitingFactory(garden=garden, name="D")
    offer = offer_to(first)
    second_stand = queries.stands(queries.waiting_list(garden), season)[1]
    assert second_stand.next_row.entry.name == "D"
    assert [len(one.reasons) for one in second_stand.situation.proposal.passed] == [2, 1, 1]
    AssignmentFactory(plot__garden=garden, season=season, holder=two)
    with pytest.raises(ValidationError, match="as many plots as"):
        service.accept_offer(offer=offer)


def test_the_first_in_line_may_have_another_plot_than_the_one_proposed(offer_to, garden, season, plot):
    first, second, third = [WaitingFactory(garden=garden, name=name) for name in "ABC"]
    plots = [PlotFactory(garden=garden, label=f"Z{number}") for number in range(3)]
    proposed = [
        row.next_row and row.next_row.entry.name
        for row in queries.stands(queries.waiting_list(garden), season)
    ]
    assert proposed == ["A", "B", "C", None]
    offer = offer_to(first, on=plots[2])
    assert (offer.next_in_line, offer.why) == (first, "")
    with pytest.raises(ValidationError, match="before them"):
        offer_to(third, on=plot)
    assert offer_to(second, on=plots[1]).next_in_line == second


def test_leaving_ends_an_open_offer_too_and_is_final(offer_to, garden, keeper):
    entry = WaitingFactory(garden=garden)
    offer = offer_to(entry)
    service.leave_list(entry=entry, why=LeftWhy.CANCELLED, by=None)
    offer.refresh_from_db()
    assert offer.answer == Answer.DECLINED
    with pytest.raises(ValidationError, match="ended the place"):
        service.reinstate(entry=entry, by=keeper, reason="please")


def test_a_lost_place_comes_back_with_its_date_within_the_garden_s_time(garden, keeper, clock):
    entry, _other = WaitingFactory(garden=garden, name="A"), WaitingFactory(garden=garden, name="B")
    service.leave_list(entry=entry, why=LeftWhy.REMOVED, by=keeper)
    with pytest.raises(ValidationError, match="Say why"):
        service.reinstate(entry=entry, by=keeper, reason="")
    service.reinstate(entry=entry, by=keeper, reason="Was in hospital wing B visiting")
    assert in_line(garden) == ["A", "B"]
    service.leave_list(entry=entry, why=LeftWhy.SILENT, by=keeper)
    clock.move_to(NOW + timedelta(days=400))
    with pytest.raises(ValidationError, match="within 365 days"):
        service.reinstate(entry=entry, by=keeper, reason="late")


def test_a_member_waits_once(garden):
    user = MembershipFactory(garden=garden).user
    WaitingFactory(garden=garden, member=user)
    with pytest.raises(ValidationError, match="on the list already"):
        service.join_list(entry=WaitingFactory.build(garden=garden, member=user), by=user)


def test_a_new_date_moves_the_place_and_is_kept_with_its_reason(garden, keeper):
    WaitingFactory(garden=garden, name="A")
    entry = WaitingFactory(garden=garden, name="B")
    half = PlotChoice.objects.create(garden=garden, name="half plot")
    entry.joined_at = datetime(2023, 5, 2, tzinfo=UTC)
    service.change_entry(entry=entry, choices=[half], by=keeper, why="From the paper list")
    assert in_line(garden) == ["B", "A"]
    change = Change.objects.get(what="waiting-changed")
    assert (sorted(change.after), change.why) == (
        ["choices", "joined_at", "placed_at"],
        "From the paper list",
    )


def test_the_yearly_question_keeps_who_answers_and_drops_whom_a_person_ticks(garden, keeper, clock):
    yes, no, silent, ill = (WaitingFactory(garden=garden, name=name) for name in "ABCD")
    round = service.ask_interest(garden=garden, answer_by=date(2024, 6, 29), by=keeper)
    with pytest.raises(ValidationError, match="being asked already"):
        service.ask_interest(garden=garden, answer_by=date(2024, 6, 29), by=keeper)
    of = {answer.entry_id: answer for answer in InterestAnswer.objects.filter(round=round)}
    service.answer_interest(answer=of[yes.pk], still=True)
    service.answer_interest(answer=of[no.pk], still=False, by=keeper)
    everybody = {yes.pk, silent.pk}
    with pytest.raises(ValidationError, match="still time"):
        service.close_interest(round=round, dropped=everybody, by=keeper)
    clock.move_to(datetime(2024, 6, 30, 18, tzinfo=UTC))
    assert service.close_interest(round=round, dropped=everybody, by=keeper) == 1
    assert in_line(garden) == ["A", "D"]
    no.refresh_from_db()
    silent.refresh_from_db()
    assert (no.left_why, silent.left_why) == (LeftWhy.CANCELLED, LeftWhy.SILENT)
    with pytest.raises(ValidationError, match="closed"):
        service.answer_interest(answer=of[ill.pk], still=True)


def test_a_link_leads_to_its_own_place_and_no_other(garden):
    entry = WaitingFactory(garden=garden)
    token = service.place_link(entry).rstrip("/").rpartition("/")[2]
    assert service.entry_of_token(token) == entry
    forged = f"{WaitingFactory(garden=garden).pk}:{token.partition(':')[2]}"
    assert service.entry_of_token(forged) is None
    assert service.entry_of_token("nonsense") is None


@pytest.mark.parametrize("rows", [1, 3])
def test_the_list_costs_the_same_with_more_people(garden, season, rows, django_assert_num_queries):
    for number in range(rows):
        PlotFactory(garden=garden, label=f"X{number}")
        WaitingFactory(garden=garden)
    garden = type(garden).objects.select_related("rules").get(pk=garden.pk)
    # who waits, choices, offers not taken, members, holdings; plots, their choices
    with django_assert_num_queries(7):
        queries.stands(queries.waiting_list(garden), season)
