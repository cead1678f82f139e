from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plots.waiting import (
    After,
    Entry,
    FreePlot,
    Offer,
    Priority,
    Reason,
    Rules,
    State,
    Why,
    against_counts,
    ahead_of,
    line,
    may_return,
    next_for,
    queue_for,
    round_due,
    settled,
    situations,
)

NOW = datetime(2024, 6, 1, 12, tzinfo=UTC)
PLOT = FreePlot(1)
BED = FreePlot(2, accessible=True)


def entry(pk, day=1, month=5, **rest) -> Entry:
    joined = datetime(2024, month, day, 9, tzinfo=UTC)
    return Entry(pk, joined, rest.pop("placed_at", joined), **rest)


def order(entries, rules=None) -> list[int]:
    return [place.entry.pk for place in line(entries, rules or Rules(), now=NOW)]


def proposed(plot, entries, rules=None, **more):
    rules = rules or Rules()
    place = next_for(plot, line(entries, rules, now=NOW), rules, **more).place
    return place and place.entry.pk


def test_date_and_time_decide_and_each_place_says_why():
    third = entry(7, day=2, needs_accessible=True)
    places = line([third, entry(8, month=4), entry(9, day=1)], Rules(), now=NOW)
    assert [place.entry.pk for place in places] == [8, 9, 7]
    assert (places[2].number, places[2].reasons) == (
        3,
        (Reason(Why.JOINED, (date(2024, 5, 2),)), Reason(Why.ASKED_ACCESSIBLE)),
    )


def test_the_garden_puts_what_it_likes_before_the_date():
    near, member, both, neither = (
        entry(1, day=4, traits=frozenset({Priority.NEAR})),
        entry(2, day=3, traits=frozenset({Priority.MEMBER})),
        entry(3, day=2, traits=frozenset({Priority.NEAR, Priority.MEMBER})),
        entry(4, day=1),
    )
    everybody = [near, member, both, neither]
    assert order(everybody) == [4, 3, 2, 1]
    assert order(everybody, Rules(first=(Priority.NEAR,))) == [3, 1, 4, 2]
    rules = Rules(first=(Priority.MEMBER, Priority.NEAR))
    assert order(everybody, rules) == [3, 2, 1, 4]
    places = line(everybody, rules, now=NOW)
    assert places[0].reasons[1:] == (Reason(Why.MEMBER), Reason(Why.NEAR))
    assert ahead_of(places[3], places, rules) == {Why.MEMBER: 2, Why.NEAR: 1}
    assert ahead_of(places[2], places, rules) == {Why.MEMBER: 2}


def test_a_priority_that_the_garden_does_not_have_is_no_reason():
    places = line([entry(1, traits=frozenset({Priority.GROUP}))], Rules(), now=NOW)
    assert places[0].reasons == (Reason(Why.JOINED, (date(2024, 5, 1),)),)


def test_whoever_moved_back_says_when_and_why():
    back = entry(1, placed_at=datetime(2024, 5, 9, tzinfo=UTC), placed_by=Why.DECLINED)
    places = line([back, entry(2, day=8)], Rules(), now=NOW)
    assert [place.entry.pk for place in places] == [2, 1]
    assert places[1].reasons[1] == Reason(Why.DECLINED, (date(2024, 5, 9),))


@pytest.mark.parametrize(
    ("first", "reason"),
    [
        ({"needs_accessible": True}, Reason(Why.NEEDS_ACCESSIBLE)),
        ({"choices": frozenset({"half plot"})}, Reason(Why.CHOSE_OTHERS, ("half plot",))),
        ({"household_holds": 2}, Reason(Why.AT_CAP, (2,))),
        ({"refused": frozenset({1})}, Reason(Why.REFUSED)),
        ({"offer": Offer(5, NOW + timedelta(hours=1))}, Reason(Why.HAS_OFFER, (date(2024, 6, 1),))),
    ],
)
def test_who_cannot_have_the_plot_is_passed_with_the_reason(first, reason):
    rules = Rules()
    places = line([entry(1, **first), entry(2, day=2)], rules, now=NOW)
    proposal = next_for(PLOT, places, rules)
    assert proposal.place.entry.pk == 2
    assert [(one.place.entry.pk, one.reasons) for one in proposal.passed] == [(1, (reason,))]
    assert [place.number for place in places] == [1, 2], "the place is kept"


def test_a_choice_is_met_by_any_of_its_plots():
    half = entry(1, choices=frozenset({"half plot", "north field"}))
    assert proposed(FreePlot(3, frozenset({"north field"})), [half]) == 1
    assert proposed(FreePlot(3, frozenset({"south field"})), [half]) is None


def test_an_accessible_bed_goes_first_to_who_needs_one():
    entries = [entry(1), entry(2, day=2, needs_accessible=True)]
    assert proposed(BED, entries) == 2
    assert proposed(BED, entries, Rules(accessible_first=False)) == 1
    assert proposed(BED, entries[:1]) == 1, "who does not need one may have it if nobody does"
    rules = Rules()
    proposal = next_for(BED, line(entries, rules, now=NOW), rules)
    assert proposal.passed[0].reasons == (Reason(Why.FOR_WHO_NEEDS_IT),)
    assert [place.entry.pk for place in queue_for(BED, line(entries, rules, now=NOW), rules)] == [2, 1]


def test_an_offer_is_open_to_its_last_moment_and_run_out_at_its_end():
    entries = [entry(1, offer=Offer(1, NOW)), entry(2, day=2)]
    before, at = (
        situations([PLOT], entries, Rules(), now=moment)[0] for moment in (NOW - timedelta(seconds=1), NOW)
    )
    assert (before.state, before.offered_to, before.proposal) == (State.OFFERED, 1, None)
    assert (at.state, at.offered_to, at.proposal.place.entry.pk) == (State.RAN_OUT, 1, 2)


@pytest.mark.parametrize(("rule", "line_after"), [("end", [2, 1]), ("keeps", [1, 2]), ("leaves", [2])])
def test_silence_does_to_a_place_what_the_garden_says(rule, line_after):
    rules = Rules(after_silence=After(rule))
    silent = entry(1, offer=Offer(1, NOW - timedelta(days=1)))
    assert order([silent, entry(2, day=2)], rules) == line_after
    after = settled(silent, rules, now=NOW)
    assert after is None or (1 in after.refused and after.offer is None), "not offered the same plot again"


def test_without_anybody_else_a_run_out_offer_still_says_so():
    silent = entry(1, offer=Offer(1, NOW))
    situation = situations([PLOT], [silent], Rules(), now=NOW)[0]
    assert (situation.state, situation.proposal.place) == (State.RAN_OUT, None)
    assert against_counts(situation.proposal) == {Why.REFUSED: 1}


def test_several_free_plots_go_down_the_line_and_accessible_beds_are_kept_for_need():
    entries = [entry(1), entry(2, day=2, needs_accessible=True), entry(3, day=3)]
    plots = [PLOT, BED, FreePlot(3), FreePlot(4)]
    found = situations(plots, entries, Rules(), now=NOW)
    assert [s.proposal.place and s.proposal.place.entry.pk for s in found] == [1, 2, 3, None]
    assert found[3].state == State.NOBODY
    assert against_counts(found[3].proposal) == {Why.PROPOSED: 2, Why.NEEDS_ACCESSIBLE: 1}


moments = st.integers(-400, 400).map(lambda hours: NOW + timedelta(hours=hours))
entries_of_all_kinds = st.lists(
    st.builds(
        entry,
        st.integers(1, 10_000),
        day=st.integers(1, 28),
        traits=st.frozensets(st.sampled_from(list(Priority))),
        needs_accessible=st.booleans(),
        choices=st.frozensets(st.sampled_from(["half", "north"])),
        household_holds=st.integers(0, 3),
        refused=st.frozensets(st.integers(1, 4)),
        offer=st.none() | st.builds(Offer, st.integers(1, 4), moments),
    ),
    unique_by=(lambda one: one.pk, lambda one: one.offer.plot if one.offer else -one.pk),
    max_size=12,
)
free_plots = st.lists(
    st.builds(
        FreePlot,
        st.integers(1, 4),
        st.frozensets(st.sampled_from(["half", "north"])),
        st.booleans(),
    ),
    unique_by=lambda plot: plot.pk,
)
all_rules = st.builds(
    Rules,
    first=st.permutations(list(Priority)).map(lambda order: tuple(order[:2])),
    accessible_first=st.booleans(),
    after_silence=st.sampled_from(list(After)),
)


@given(plots=free_plots, entries=entries_of_all_kinds, rules=all_rules)
def test_nobody_is_skipped_nothing_stands_still_and_nobody_is_asked_twice(plots, entries, rules):
    places = line(entries, rules, now=NOW)
    assert [place.number for place in places] == list(range(1, len(places) + 1))
    found = situations(plots, entries, rules, now=NOW)
    proposals = [one.proposal for one in found if one.proposal]
    chosen = [proposal.place.entry.pk for proposal in proposals if proposal.place]
    assert len(chosen) == len(set(chosen)), "nobody is proposed two plots"
    for proposal in proposals:
        number = proposal.place.number if proposal.place else len(places) + 1
        assert [one.place.number for one in proposal.passed] == list(range(1, number))
        assert all(one.reasons for one in proposal.passed), "everybody ahead is told why"
    for one in found:
        assert (one.state in (State.OFFERED, State.RAN_OUT)) == (one.offered_to is not None)
        assert (one.state is State.OFFERED) == (one.proposal is None), "a plot is never left without a word"
    left_over = {place.entry.pk for place in places} - set(chosen)
    for one in found:
        if one.proposal and one.proposal.place is None:
            assert not {place.entry.pk for place in queue_for(one.plot, places, rules)} & left_over


@given(entries=entries_of_all_kinds, rules=all_rules, plot=free_plots.filter(len))
def test_the_last_in_line_gets_a_plot_only_when_nobody_else_can(entries, rules, plot):
    places = line(entries, rules, now=NOW)
    queue = queue_for(plot[0], places, rules)
    proposal = next_for(plot[0], places, rules)
    assert proposal.place == (queue[0] if queue else None)
    if proposal.place and proposal.place is places[-1]:
        able = [one for one in queue if one is not proposal.place]
        assert all(rules.accessible_first and plot[0].accessible for _one in able)


@pytest.mark.parametrize(
    ("today", "last_asked", "oldest", "due"),
    [
        (date(2024, 12, 5), None, date(2024, 1, 1), date(2024, 12, 1)),
        (date(2024, 11, 30), date(2023, 12, 1), date(2022, 1, 1), None),
        (date(2024, 12, 5), date(2024, 12, 3), date(2022, 1, 1), None),
        (date(2025, 2, 1), date(2023, 12, 1), date(2022, 1, 1), date(2024, 12, 1)),
        (date(2024, 12, 5), None, date(2024, 12, 2), None),
        (date(2024, 12, 5), None, None, None),
    ],
)
def test_the_yearly_question_is_due_until_it_is_asked(today, last_asked, oldest, due):
    assert round_due("12-01", today=today, last_asked=last_asked, oldest=oldest) == due


def test_a_garden_that_asks_on_no_day_is_never_due():
    assert round_due("", today=date(2024, 3, 1), last_asked=None, oldest=date(2020, 1, 1)) is None


def test_a_leap_day_is_asked_on_the_day_before():
    assert round_due("02-29", today=date(2023, 3, 1), last_asked=None, oldest=date(2020, 1, 1)) == date(
        2023, 2, 28
    )


def test_a_lost_place_can_be_given_back_for_as_long_as_the_garden_says():
    left = date(2024, 1, 1)
    assert may_return(left_on=left, today=date(2024, 1, 31), days=30)
    assert not may_return(left_on=left, today=date(2024, 2, 1), days=30)
