"""The waiting list in the browser: for who looks after it, and for who waits."""

from datetime import UTC, date, datetime, timedelta

import pytest
import time_machine
from django.urls import reverse

from plots.models import (
    Answer,
    Assignment,
    Change,
    InterestAnswer,
    InterestRound,
    LeftWhy,
    Offer,
    PlotChoice,
    WaitingEntry,
)
from plots.service import ask_interest, make_offer, place_link, place_path, post
from tests.factories import PlotFactory, WaitingFactory
from tests.texts import text_of

pytestmark = pytest.mark.django_db
NOW = datetime(2024, 6, 1, 18, tzinfo=UTC)


@pytest.fixture(autouse=True)
def clock():
    with time_machine.travel(NOW, tick=False) as clock:
        yield clock


@pytest.fixture
def run(cast, as_user):
    return as_user(cast.coordinator)


@pytest.fixture
def free(cast):
    return PlotFactory(garden=cast.garden, label="B1")


def url(name, cast, *args):
    return reverse(f"plots:{name}", args=[cast.garden.slug, *args])


def own(entry) -> str:
    return place_path(entry)


def offer_to(entry, plot, cast) -> Offer:
    return make_offer(
        entry=entry, plot=plot, season=cast.assignment.season, begins_on=date(2024, 6, 1),
        ends_at=NOW + timedelta(hours=48), by=cast.coordinator,
    )  # fmt: skip


def test_the_list_says_who_is_next_for_each_plot_and_why(run, cast, free):
    WaitingFactory(garden=cast.garden, name="Ana", needs_accessible=True)
    WaitingFactory(garden=cast.garden, name="Bo", joined_at=datetime(2024, 5, 2, tzinfo=UTC))
    page = text_of(run.get(url("waiting", cast)))
    assert "next: Bo (2nd: joined May 1, 2024)" in page
    assert "Offer B1 to Bo" in page
    assert "asked for an accessible bed" in page


def test_an_offer_that_ran_out_is_seen_among_many_free_plots(run, cast, clock, monkeypatch):
    monkeypatch.setattr("plots.views.waiting.MOST_STANDS", 1)
    plots = [PlotFactory(garden=cast.garden, label=f"B{number}") for number in range(5)]
    ana, _bo, _che = [WaitingFactory(garden=cast.garden, name=name) for name in ("Ana", "Bo", "Che")]
    offer_to(ana, plots[4], cast)
    Offer.objects.update(told_at=NOW, told_how="phone")
    clock.shift(timedelta(hours=49))
    answer = run.get(url("waiting", cast))
    page = text_of(answer)
    assert "B4 the offer to Ana ran out" in page
    assert "next: Bo" in page
    assert "2 more plots are free; they come up" in page
    assert "1 plot Nobody who waits can have it (3: are next for another plot)" in page


def test_the_offer_page_tells_why_others_are_passed_and_makes_the_offer(run, cast, free):
    WaitingFactory(garden=cast.garden, name="Ana", needs_accessible=True)
    entry = WaitingFactory(garden=cast.garden, name="Bo")
    address = f"{url('offer_new', cast)}?plot={free.pk}&season={cast.assignment.season_id}"
    assert "1. Ana needs an accessible bed" in text_of(run.get(address))
    data = {"entry": entry.pk, "ends_at": "2024-06-04T18:00", "begins_on": "2024-06-05", "why": ""}
    response = run.post(address, data)
    offer = Offer.objects.get()
    assert response.headers["Location"] == url("offer", cast, offer.pk)
    assert (offer.entry, offer.plot, offer.begins_on) == (entry, free, date(2024, 6, 5))
    assert offer.ends_at == datetime(2024, 6, 5, 0, tzinfo=UTC), "the hour is the garden's"
    page = text_of(run.get(response.headers["Location"]))
    assert "can offer you plot B1" in page
    assert place_link(entry) in page, "to copy, print or read out"


def test_out_of_turn_without_a_reason_is_refused_and_nothing_typed_is_lost(run, cast, free):
    WaitingFactory(garden=cast.garden, name="Ana")
    last = WaitingFactory(garden=cast.garden, name="Bo")
    address = f"{url('offer_new', cast)}?plot={free.pk}&season={cast.assignment.season_id}"
    data = {"entry": last.pk, "ends_at": "2024-06-04T18:00", "begins_on": "2024-06-05"}
    response = run.post(address, data)
    assert (response.status_code, Offer.objects.count()) == (422, 0)
    assert "Ana is next in line. Say why Bo gets the offer before them." in text_of(response)
    assert response.context["form"]["ends_at"].value() == "2024-06-04T18:00"
    run.post(address, {**data, "why": "Ana asked us to wait"})
    assert Offer.objects.get().why == "Ana asked us to wait"


def test_opening_the_link_only_shows_and_its_button_accepts(cast, free, as_user):
    entry = WaitingFactory(garden=cast.garden, name="Ana Peris")
    offer = offer_to(entry, free, cast)
    visitor = as_user(None)
    page = visitor.get(own(entry))
    assert "Yes, I take plot B1" in text_of(page)
    offer.refresh_from_db()
    assert offer.answer == "", "a mail scanner that opens the link uses nothing up"
    answer = reverse("plots:place_offer", args=[own(entry).split("/")[2], offer.pk])
    assert "Plot B1 is yours" in text_of(visitor.post(answer, {"answer": "yes"}, follow=True))
    assert Assignment.objects.get(plot=free).holder.name == "Ana Peris"
    again = visitor.post(answer, {"answer": "no"})
    assert (again.status_code, "This offer is over" in text_of(again)) == (422, True)


def test_after_the_deadline_the_link_says_so_and_the_next_is_proposed(cast, free, as_user, run, clock):
    silent = WaitingFactory(garden=cast.garden, name="Ana")
    WaitingFactory(garden=cast.garden, name="Bo")
    offer = offer_to(silent, free, cast)
    run.post(url("offer_told", cast, offer.pk), {"how": "phone"})
    clock.move_to(NOW + timedelta(days=3))
    late = as_user(None).post(
        reverse("plots:place_offer", args=[own(silent).split("/")[2], offer.pk]), {"answer": "yes"}
    )
    assert (late.status_code, "time to answer was over" in text_of(late)) == (422, True)
    page = text_of(run.get(url("waiting", cast)))
    assert "the offer to Ana ran out" in page
    assert "Offer B1 to Bo" in page


@pytest.mark.parametrize(
    ("answer", "kept", "waits"),
    [("yes", Answer.ACCEPTED, False), ("no", Answer.DECLINED, True), ("silence", "", True)],
)
def test_somebody_without_email_answers_by_telephone(run, cast, free, answer, kept, waits):
    entry = WaitingFactory(garden=cast.garden)
    offer = offer_to(entry, free, cast)
    response = run.post(url("offer_answer", cast, offer.pk), {"answer": answer})
    offer.refresh_from_db()
    entry.refresh_from_db()
    assert (offer.answer, entry.waits) == (kept, waits)
    assert response.status_code == (302 if kept else 422)  # there is still time


def test_an_offer_goes_out_by_email_when_a_person_sends_it(run, cast, free, settings, mailoutbox):
    offer = offer_to(WaitingFactory(garden=cast.garden, email="ana@example.org"), free, cast)
    send = url("offer_send", cast, offer.pk)
    assert "No email went out" in text_of(run.post(send, follow=True))
    assert "not told yet" in text_of(run.get(url("waiting", cast)))
    settings.EMAIL_FROM = "garden@example.org"
    assert "Send it to ana@example.org" in text_of(run.get(url("offer", cast, offer.pk)))
    run.post(send)
    assert "by email, June 1, 2024" in text_of(run.get(url("offer", cast, offer.pk)))
    assert "not told yet" not in text_of(run.get(url("waiting", cast)))
    run.post(send)
    link = place_link(offer.entry, emailed=True)
    assert [(mail.to, link in mail.body, "waits for your answer" in mail.subject) for mail in mailoutbox] == [
        (["ana@example.org"], True, False), (["ana@example.org"], True, True),
    ]  # fmt: skip


def test_an_offer_made_goes_out_at_once_where_that_is_wished(run, cast, free, settings, mailoutbox):
    settings.EMAIL_FROM = "garden@example.org"
    entry = WaitingFactory(garden=cast.garden, email="ana@example.org")
    address = f"{url('offer_new', cast)}?plot={free.pk}&season={cast.assignment.season_id}"
    data = {"entry": entry.pk, "ends_at": "2024-06-04T18:00", "begins_on": "2024-06-05"}
    for wrong, says in [
        ({"ends_at": "2024-06-01T11:00"}, "has to lie ahead"),
        ({"begins_on": "2025-06-05"}, "The season is from Jan. 1, 2024 to Dec. 31, 2024."),
    ]:
        response = run.post(address, {**data, **wrong})
        assert (response.status_code, says in text_of(response)) == (422, True)
    run.post(address, {**data, "send": "on"})
    assert (Offer.objects.get().told_how, len(mailoutbox)) == ("email", 1)


def test_somebody_else_s_address_gives_them_no_plot(run, cast, free, as_user):
    cast.stranger.email = "sue@example.org"
    cast.stranger.save()
    offer = offer_to(WaitingFactory(garden=cast.garden, name="Eve", email="sue@example.org"), free, cast)

    def answer(who, *, emailed=False):
        token = place_link(offer.entry, emailed=emailed).split("/")[4]
        address = reverse("plots:place_offer", args=[token, offer.pk])
        return as_user(who).post(address, {"answer": "yes"}, follow=True)

    for who in (None, cast.member):
        page = answer(who)
        assert (page.status_code, "has an account with the address" in text_of(page)) == (422, True)
    asked = text_of(run.get(url("offer", cast, offer.pk)))
    assert "the address sue@example.org: somebody of another garden." in asked
    assert run.post(url("offer_answer", cast, offer.pk), {"answer": "yes"}).status_code == 422
    assert not Assignment.objects.filter(plot=free).exists()
    answer(cast.stranger)
    assert Assignment.objects.get(plot=free).holder == cast.stranger


def test_the_emailed_link_is_proof_enough(cast, free, as_user):
    cast.stranger.email = "sue@example.org"
    cast.stranger.save()
    offer = offer_to(WaitingFactory(garden=cast.garden, email="sue@example.org"), free, cast)
    token = place_link(offer.entry, emailed=True).split("/")[4]
    as_user(None).post(reverse("plots:place_offer", args=[token, offer.pk]), {"answer": "yes"})
    assert Assignment.objects.get(plot=free).holder == cast.stranger


def test_the_question_goes_by_email_to_the_silent_ones_who_have_one(
    run, cast, settings, mailoutbox, monkeypatch
):
    settings.EMAIL_FROM = "garden@example.org"
    take = post.EmailMessage.send
    monkeypatch.setattr(post.EmailMessage, "send", lambda mail: "bo@" not in mail.to[0] and take(mail))
    first = WaitingFactory(garden=cast.garden, email="ana@example.org")
    WaitingFactory(garden=cast.garden, email="bo@example.org")
    on_paper = WaitingFactory(garden=cast.garden, name="Cy", address="14 Cooper Row")
    round = ask_interest(garden=cast.garden, answer_by=date(2024, 6, 29), by=cast.coordinator)
    send, page = url("interest_send", cast, round.pk), url("interest", cast, round.pk)
    assert "Email the 2 not written to yet" in text_of(run.get(page))
    said = text_of(run.post(send, {"who": "new"}, follow=True))
    assert "1 email went out. 1 did not. Press again, or call them." in said
    assert ("emailed June 1, 2024" in said, "Remind the one who is silent" in said) == (True, True)
    run.post(send, {"who": "new"})
    run.post(send, {"who": "silent"})
    assert [mail.to for mail in mailoutbox] == [["ana@example.org"]] * 2
    assert place_link(first, emailed=True) in mailoutbox[0].body
    letters = text_of(run.get(page, {"letters": "all"}))
    assert ("14 Cooper Row" in letters, place_link(on_paper) in letters, "ana@" in letters) == (
        True, True, False,
    )  # fmt: skip


def test_an_offer_gets_more_time_or_is_taken_back(run, cast, free):
    offer = offer_to(WaitingFactory(garden=cast.garden), free, cast)
    assert run.post(url("offer_extend", cast, offer.pk), {"ends_at": "2024-06-01T18:00"}).status_code == 422
    run.post(url("offer_extend", cast, offer.pk), {"ends_at": "2024-06-09T18:00"})
    offer.refresh_from_db()
    assert offer.ends_at == datetime(2024, 6, 10, tzinfo=UTC)
    assert run.post(url("offer_withdraw", cast, offer.pk), {"reason": ""}).status_code == 422
    run.post(url("offer_withdraw", cast, offer.pk), {"reason": "Flooded"})
    offer.refresh_from_db()
    assert offer.answer == Answer.WITHDRAWN


def joined(client, cast, clock, *, wait=timedelta(seconds=20), **data):
    cast.garden.rules.sign_up_open = True
    cast.garden.rules.save()
    page = client.get(reverse("plots:join", args=[cast.garden.slug]))
    opened = page.context["form"]["opened"].value()
    clock.shift(wait)
    said = {"name": "Ana", "phone": "555 0101", "opened": opened, **data}
    return client.post(reverse("plots:join", args=[cast.garden.slug]), said)


def test_anybody_signs_up_by_telephone_alone_and_sees_their_place(cast, as_user, clock):
    visitor = as_user(None)
    response = joined(visitor, cast, clock)
    entry = WaitingEntry.objects.get()
    assert (entry.name, entry.email, response.headers["Location"]) == ("Ana", "", place_path(entry))
    assert "1st: joined June 1, 2024." in text_of(visitor.get(own(entry)))


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ({"website": "https://x.example"}, "empty the field that is to be left empty"),
        ({"wait": timedelta(seconds=1)}, "That went very fast"),
        ({"wait": timedelta(days=3)}, "took very long"),
        ({"opened": "forged"}, "That went very fast"),
        ({"phone": ""}, "Give one way to reach you"),
        ({"name": ""}, "Please fill this in."),
    ],
)
def test_robots_stumble_and_people_lose_nothing(cast, as_user, clock, data, says):
    response = joined(as_user(None), cast, clock, **data)
    assert (response.status_code, WaitingEntry.objects.count()) == (422, 0)
    assert says in text_of(response)


def test_sending_it_once_more_is_enough(cast, as_user, clock):
    visitor = as_user(None)
    again = joined(visitor, cast, clock, wait=timedelta(0)).context["form"]["opened"].value()
    clock.shift(timedelta(seconds=5))
    visitor.post(reverse("plots:join", args=["linden-row"]), {"name": "A", "phone": "1", "opened": again})
    assert WaitingEntry.objects.get().name == "A"


def test_one_address_cannot_fill_the_list(cast, as_user, clock):
    visitor = as_user(None)
    answers = [joined(visitor, cast, clock).status_code for _n in range(11)]
    assert answers == [302] * 10 + [422]


def test_where_the_garden_is_closed_only_members_may_join(cast, as_user):
    address = reverse("plots:join", args=[cast.garden.slug])
    assert [as_user(who).get(address).status_code for who in (None, cast.stranger, cast.member)] == [
        404, 404, 200,
    ]  # fmt: skip


def test_a_member_is_led_to_their_own_place(cast, as_user):
    client = as_user(cast.member)
    assert client.get(url("waiting_own", cast)).headers["Location"].startswith("/join/")
    entry = WaitingFactory(garden=cast.garden, member=cast.member)
    assert client.get(url("waiting_own", cast)).headers["Location"] == place_path(entry)


def test_questions_are_asked_as_the_garden_words_them(cast, as_user, clock):
    rules = cast.garden.rules
    rules.near_question = "Do you live within two blocks?"
    rules.save()
    PlotChoice.objects.create(garden=cast.garden, name="half plot")
    response = joined(as_user(None), cast, clock, near="on", phone="")
    page = text_of(response)
    assert ("two blocks?" in page, "half plot" in page, "own question" in page) == (True, True, False)


def test_on_the_own_page_one_leaves_for_good(cast, as_user):
    entry = WaitingFactory(garden=cast.garden)
    page = as_user(None).post(f"{own(entry)}leave/", follow=True)
    assert "You left the waiting list on June 1, 2024: asked to leave the list." in text_of(page)


def test_the_yearly_question_by_link_by_telephone_and_by_silence(run, cast, as_user, clock):
    link, called, silent = (WaitingFactory(garden=cast.garden, name=name) for name in ("Ana", "Bo", "Cy"))
    run.post(url("interest_new", cast), {"answer_by": "2024-06-29"})
    round = InterestRound.objects.get()
    of = {answer.entry_id: answer.pk for answer in InterestAnswer.objects.all()}
    assert "Are you still interested?" in text_of(as_user(None).get(own(link)))
    as_user(None).post(f"{own(link)}still/{of[link.pk]}/", {"still": "yes"})
    run.post(url("interest_answer", cast, round.pk, of[called.pk]), {"still": "no"})
    assert "1 yes, 1 no, 1 silent" in text_of(run.get(url("interest", cast, round.pk)))
    clock.move_to(datetime(2024, 7, 1, 18, tzinfo=UTC))
    assert "Whose place ends" in text_of(run.get(url("interest", cast, round.pk)))
    run.post(url("interest_close", cast, round.pk), {"drop": [silent.pk, "9" * 30]})
    left = dict(WaitingEntry.objects.values_list("name", "left_why"))
    assert left == {"Ana": "", "Bo": LeftWhy.CANCELLED, "Cy": LeftWhy.SILENT}


def test_a_lost_place_is_given_back_with_a_reason(run, cast):
    entry = WaitingFactory(garden=cast.garden)
    assert run.post(url("waiting_leave", cast, entry.pk), {"reason": ""}).status_code == 422
    run.post(url("waiting_leave", cast, entry.pk), {"reason": "Moved away, we heard"})
    assert "Left the list on June 1, 2024" in text_of(run.get(url("waiting_entry", cast, entry.pk)))
    assert run.post(url("waiting_return", cast, entry.pk), {"reason": ""}).status_code == 422
    run.post(url("waiting_return", cast, entry.pk), {"reason": "Wrong person"})
    page = text_of(run.get(url("waiting_entry", cast, entry.pk)))
    assert ("1st: joined" in page, "Wrong person" in page) == (True, True)


def test_a_paper_list_is_typed_in_with_its_dates(run, cast):
    data = {"name": "Ana", "phone": "555 0101", "joined_at": "2021-03-04T09:30"}
    run.post(url("waiting_new", cast), data)
    entry = WaitingEntry.objects.get()
    assert entry.placed_at == entry.joined_at == datetime(2021, 3, 4, 16, 30, tzinfo=UTC)
    run.post(url("waiting_edit", cast, entry.pk), {**data, "note": "Mornings", "why": "called"})
    entry.refresh_from_db()
    assert (entry.note, entry.placed_by) == ("Mornings", "joined")
    ahead = run.post(url("waiting_new", cast), {**data, "joined_at": "2030-03-04T09:30"})
    assert (ahead.status_code, "Nobody has joined in the future" in text_of(ahead)) == (422, True)


def test_history_says_who_it_was_and_when_by_the_garden_s_clock(run, cast, as_user):
    data = {"name": "Ana", "phone": "555 0101", "joined_at": "2021-03-04T09:30"}
    run.post(url("waiting_new", cast), data)
    entry = WaitingEntry.objects.get()
    as_user(None).post(f"{own(entry)}leave/")
    assert list(Change.objects.order_by("pk").values_list("what", "by_name")) == [
        ("waiting-joined", "Cora"), ("waiting-left", "Ana"),
    ]  # fmt: skip
    page = text_of(run.get(url("waiting_entry", cast, entry.pk)))
    assert "March 4, 2021, 9:30 a.m." in page


def test_a_choice_covers_its_plots(run, cast, free):
    run.post(url("choice_new", cast), {"name": "half plot", "plots": [free.pk]})
    choice = PlotChoice.objects.get()
    assert list(choice.plots.all()) == [free]
    assert run.post(url("choice_new", cast), {"name": "half plot"}).status_code == 422
    run.post(url("choice_edit", cast, choice.pk), {"name": "half plots", "plots": []})
    choice.refresh_from_db()
    assert (choice.name, choice.plots.count()) == ("half plots", 0)


def test_the_list_as_a_spreadsheet_has_how_to_reach_people(run, cast):
    WaitingFactory(garden=cast.garden, name="Ana", phone="555 0107")
    text = run.get(f"{url('waiting', cast)}?as=csv").content.decode()
    assert "Ana" in text
    assert "555 0107" in text


@pytest.mark.parametrize("rows", [1, 3])
def test_the_pages_cost_the_same_with_more_people(run, cast, rows, django_assert_num_queries):
    for number in range(rows):
        PlotFactory(garden=cast.garden, label=f"X{number}")
        WaitingFactory(garden=cast.garden)
    ask_interest(garden=cast.garden, answer_by=date(2024, 6, 29), by=cast.coordinator)
    # session, person, membership; rules, season; who waits, choices, not taken, members, holdings; plots,
    # their choices; every plot, their choices; renewals asked, seasons, the question, who left, asked before
    with django_assert_num_queries(19):
        run.get(url("waiting", cast))
