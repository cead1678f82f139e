"""One whole season turn on a garden of 60 plots, through its pages, from asking to the agreement."""

from datetime import date, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest
from django.urls import reverse

from plots.models import AgreementVersion, Assignment, Change, Due, Renewal, RenewalRound, Season, WishChoice
from plots.service.turn import answer_renewal
from tests.factories import AssignmentFactory, PlotFactory, SeasonFactory
from tests.texts import text_of

pytestmark = pytest.mark.django_db
MORNING = datetime(2024, 10, 1, 9, tzinfo=ZoneInfo("America/Denver"))


class Year:
    """A garden in autumn, its coordinator's browser, and a calendar to turn."""

    def __init__(self, cast, as_user, time_machine, plots):
        self.garden, self.cast, self.as_user, self.clock = cast.garden, cast, as_user, time_machine
        self.go_to(MORNING.date())
        Assignment.objects.filter(pk=cast.assignment.pk).update(began_on=date(2024, 3, 1))
        Season.objects.filter(pk=cast.assignment.season_id).update(name="2024")
        self.season = Season.objects.get(pk=cast.assignment.season_id)
        self.held = [cast.assignment]
        for number in range(2, plots + 1):
            held = AssignmentFactory(
                plot__garden=self.garden,
                plot__label=f"A{number}",
                season=self.season,
                began_on=date(2024, 3, 1),
            )
            self.held.append(held)
        self.free = [PlotFactory(garden=self.garden, label=f"B{number}") for number in range(1, 5)]
        self.run = as_user(cast.coordinator)

    def go_to(self, day):
        self.clock.move_to(MORNING + (day - MORNING.date()), tick=False)

    def url(self, name, *args):
        return reverse(f"plots:{name}", args=[self.garden.slug, *args])

    def answers(self, held, wish, note=""):
        """What the holder does on their own page."""
        prefix = f"{held.pk}-"
        data = {"plot": held.pk, f"{prefix}wish": wish, f"{prefix}note": note}
        return self.as_user(held.holder).post(self.url("own_season"), data)

    def decides(self, what, rows, why=""):
        data = {"do": what, "plot": [held.pk for held in rows], "why": why}
        return self.run.post(self.url("round", self.round.pk), data, follow=True)

    @property
    def round(self):
        return RenewalRound.objects.get()


@pytest.fixture
def year(cast, as_user, time_machine):
    return Year(cast, as_user, time_machine, plots=4)


@pytest.fixture
def big_year(cast, as_user, time_machine):
    """56 plots that are held and 4 that are free."""
    return Year(cast, as_user, time_machine, plots=56)


def test_a_whole_turn(big_year):
    year = big_year
    # The next season gets its dates, as the form proposes them.
    page = year.run.get(year.url("season_new"))
    assert page.context["form"].initial["starts_on"] == date(2025, 1, 1)
    dates = {"name": "2025", "starts_on": "2025-03-01", "ends_on": "2025-11-30"}
    assert year.run.post(year.url("season_new"), dates).status_code == 302
    coming = Season.objects.get(name="2025")

    # Everybody is asked.
    page = year.run.get(year.url("round_new"))
    assert page.context["form"].initial["answer_by"] == date(2025, 1, 30)
    asked = {"season": coming.pk, "answer_by": "2024-10-25", "grace_days": "7"}
    year.run.post(year.url("round_new"), asked)
    assert "0 of 56 have answered" in text_of(year.run.get(year.url("turn")))

    # 50 keep their plot, one gives it up, one would like another; one telephones; three say nothing.
    for held in year.held[:2]:
        assert year.answers(held, "keep").status_code == 302
    asked = year.round
    for held in year.held[2:50]:  # as their pages do once they have read the form
        answer_renewal(
            round=year.round,
            assignment=held,
            wish=WishChoice.KEEP,
            note="",
            on=MORNING.date(),
            by=held.holder,
        )
    leaver, mover, caller, *silent = year.held[50:]
    year.answers(leaver, "leave")
    year.answers(mover, "move", "nearer to the tap")
    year.run.post(
        year.url("round_answer", year.round.pk, caller.pk), {"wish": "keep", "note": "by telephone"}
    )
    assert "53 of 56 have answered" in text_of(year.run.get(year.url("turn")))

    # Before the last day nobody silent is proposed as free; after it, they are, and only proposed.
    counts = year.run.get(year.url("turn")).context["counts"]
    assert counts == {"renew": 52, "free": 1, "wait": 3}
    year.go_to(date(2024, 11, 1))
    assert year.run.get(year.url("turn")).context["counts"] == {"renew": 52, "free": 1, "remind": 3}
    year.go_to(date(2024, 11, 2))
    assert year.run.get(year.url("turn")).context["counts"] == {"renew": 52, "free": 4}
    assert Assignment.objects.filter(ended_on__isnull=False).count() == 0

    # One of the silent was ill, and the coordinator keeps the plot for them, saying why.
    refused = year.decides("renew", silent[:1])
    assert "Say why it is to be otherwise." in text_of(refused)
    assert (refused.status_code, refused.content.decode().count(" checked>")) == (422, 1)
    year.decides("renew", silent[:1], why="reached at last, wants to stay")
    page = year.run.get(year.url("round", year.round.pk), {"standing": "renew"})
    assert page.content.decode().count(" checked>") == 52
    year.decides("renew", [row.assignment for row in page.context["shown"].rows])
    year.decides("free", [leaver, *silent[1:]])
    assert year.run.get(year.url("turn")).context["counts"] == {"renewed": 53, "freed": 3}

    # The mover comes before the waiting list and moves to one of the seven free plots.
    page = year.run.get(year.url("proposals", year.round.pk))
    assert [plot.label for plot in (row.plot for row in page.context["shown"].rows)] == [
        "A51",
        "A55",
        "A56",
        "B1",
        "B2",
        "B3",
        "B4",
    ]
    row = page.context["shown"].rows[0]
    plot, proposal = row.plot, row.proposal
    assert (plot.label, proposal.mover.name) == ("A51", mover.holder.name)
    assert "A member who asked for another plot on Oct. 1, 2024" in text_of(page)
    renewal = Renewal.objects.get(assignment=mover)
    year.run.post(year.url("renewal_move", year.round.pk, renewal.pk), {"plot": plot.pk})
    assert "A52" in text_of(year.run.get(year.url("proposals", year.round.pk)))

    # A free plot goes to a member, from the first day of the season on.
    page = year.run.get(year.url("plot_holder", year.free[0].pk), {"season": coming.pk})
    assert page.context["form"].initial == {"season": coming, "began_on": date(2025, 3, 1)}
    data = {"season": coming.pk, "holder": year.cast.member.pk, "began_on": "2025-03-01"}
    assert year.run.post(year.url("plot_holder", year.free[0].pk), data).status_code == 302
    year.run.post(year.url("round_close", year.round.pk))

    _check_who_holds_what(year, coming, mover, leaver, silent)
    _settle_dues(year, coming)
    _sign(year)


def _check_who_holds_what(year, coming, mover, leaver, silent):
    """On the last day of winter as it was, on the first of the season as it was decided; nobody twice."""
    now, then = ({held.plot.label: held.holder for held in Assignment.objects.on(day)} for day in (
        date(2024, 12, 31), date(2025, 3, 1)
    ))  # fmt: skip
    assert len(now) == 56
    assert len(then) == 54
    assert (then["A51"], then["B1"]) == (mover.holder, year.cast.member)
    assert "A52" not in then  # the mover's own
    assert now[leaver.plot.label] == leaver.holder
    assert then[silent[0].plot.label] == silent[0].holder
    assert list(Assignment.objects.on(date(2025, 3, 1)).values_list("season", flat=True)) == [coming.pk] * 54
    kept = Assignment.objects.get(plot=year.cast.plot, season=coming)
    assert list(kept.co_gardeners.all()) == [year.cast.co_gardener]
    history = text_of(year.run.get(year.url("plot", silent[0].plot.pk)))
    assert "reached at last, wants to stay" in history


def _settle_dues(year, coming):
    rules = year.garden.rules
    rules.dues_per_plot = Decimal("30")
    rules.save()
    for _twice in range(2):
        year.run.post(year.url("dues_draw_up"), {"season": coming.pk})
    assert Due.objects.count() == 54
    first, second = Due.objects.order_by("pk")[:2]
    assert (first.amount, first.due_on) == (Decimal("30.00"), date(2025, 3, 8))
    year.run.post(year.url("due", first.pk), {"state": "paid"})
    year.run.post(year.url("due", second.pk), {"state": "waived"})
    page = year.run.get(year.url("dues"))
    assert "Due $1560.00, paid $30.00, waived $30.00." in text_of(page)
    found = year.run.get(year.url("dues"), {"state": "waived", "as": "csv"}).content.decode()
    assert found.count("\r\n") == 2
    assert "waived" in text_of(year.as_user(second.person).get(year.url("own_season")))


def _sign(year):
    year.run.post(year.url("agreement_version_new"))
    version = AgreementVersion.objects.get()
    english = {"language": "en", "title": "Our agreement", "body": "Water by hand.\n\nKeep the paths."}
    spanish = {"language": "es", "title": "Nuestro acuerdo", "body": "Regar a mano.", "checked_by": "Marisol"}
    for text in (english, spanish):
        assert year.run.post(year.url("agreement_text_new", version.pk), text).status_code == 302
    year.run.post(year.url("agreement_in_force", version.pk))

    holder = year.as_user(year.cast.holder)
    assert "Regar a mano." in text_of(holder.get(year.url("agreement"), {"language": "es"}))
    unticked = holder.post(year.url("agreement"), {"name": "Hollis"})
    assert (unticked.status_code, list(unticked.context["form"].errors)) == (422, ["agreed"])
    holder.post(year.url("agreement") + "?language=es", {"name": "Hollis Hart", "agreed": "on"})
    year.run.post(
        year.url("signed_on_paper"),
        {
            "person": year.cast.co_gardener.pk,
            "text": version.texts.get(language="en").pk,
            "signed_on": "2024-11-02",
        },
    )
    signed = version.signatures.order_by("pk")
    assert [(one.name, one.how, one.text.language) for one in signed] == [
        ("Hollis Hart", "screen", "es"),
        ("Corin", "paper", "en"),
    ]
    page = year.run.get(year.url("signatures"), {"state": "unsigned"})
    members = year.garden.memberships.count()
    assert page.context["shown"].found == members - 2
    assert year.run.get(year.url("turn")).context["unsigned"] == members - 2


def open_round(year, **dates):
    season = SeasonFactory(
        garden=year.garden, name="2025", starts_on=date(2025, 1, 1), ends_on=date(2025, 12, 31)
    )
    kept = {"opened_on": date(2024, 10, 1), "answer_by": date(2024, 10, 25), **dates}
    return RenewalRound.objects.create(season=season, **kept)


def test_who_is_silent_gets_a_reminder_that_a_person_gives_out(year):
    round = open_round(year, grace_days=14)
    year.answers(year.held[1], "keep")
    early = year.run.post(year.url("round_remind", round.pk), follow=True)
    assert "Nobody is to be asked again today." in text_of(early)
    year.go_to(round.answer_by + timedelta(days=1))
    assert "Draft a reminder to them" in text_of(year.run.get(year.url("turn")))
    for _twice in range(2):
        page = year.run.post(year.url("round_remind", round.pk), follow=True)
    assert "A reminder to 4 people is drafted" in text_of(page)
    notice = year.garden.notices.get()  # one draft, however often
    silent = {year.cast.co_gardener, *(held.holder for held in (year.held[0], *year.held[2:]))}
    assert (set(notice.picked.all()), notice.given_at) == (silent, None)
    assert reverse("plots:own_season", args=[year.garden.slug]) in notice.body
    assert "4 plots are undecided, and stay with who holds them" in text_of(
        year.run.get(year.url("round", round.pk))
    )
    year.run.post(year.url("round_close", round.pk))
    page = text_of(year.run.get(year.url("turn")))
    assert "Ask everybody who holds a plot" not in page
    assert "4 plots are free in the coming season. Who could have them" in page
    closed = Change.objects.get(what="renewals-closed")
    assert "Undo: Renewals were closed" in text_of(year.run.get(year.url("round", round.pk)))
    year.run.post(year.url("change_undo", closed.pk))
    assert year.round.closed_on is None
    year.run.post(year.url("notice_give", notice.pk))
    assert {row.way for row in notice.deliveries.all()} == {"none"}  # nobody's address is known here


def test_a_decision_is_taken_back_as_long_as_nothing_stands_on_it(year):
    round = open_round(year)
    held = year.held[1]
    year.decides("renew", [held], why="said so")
    renewal = Renewal.objects.get(assignment=held)
    successor = renewal.successor
    assert (successor.began_on, successor.holder) == (date(2025, 1, 1), held.holder)
    undo = year.url("renewal_undo", round.pk, renewal.pk)
    year.run.post(undo)
    held.refresh_from_db()
    assert held.ended_on is None
    assert not Assignment.objects.filter(pk=successor.pk).exists()

    year.decides("free", [held], why="moves away")
    held.refresh_from_db()
    assert held.ended_on == date(2024, 12, 31)
    AssignmentFactory(plot=held.plot, season=round.season, began_on=date(2025, 1, 1))
    page = year.run.post(undo, follow=True)
    assert f"holds plot {held.plot} from Jan. 1, 2025 on" in text_of(page)
    held.refresh_from_db()
    assert held.ended_on == date(2024, 12, 31)


def test_only_what_is_asked_can_be_answered(year):
    open_round(year)
    other = year.held[2]
    prefix = f"{other.pk}-"
    data = {"plot": other.pk, f"{prefix}wish": "leave"}
    page = year.as_user(year.cast.holder).post(year.url("own_season"), data, follow=True)
    assert "This is not asked, or no longer." in text_of(page)
    assert Renewal.objects.count() == 0
    wrong = year.answers(year.held[0], "perhaps", "kept words")
    assert wrong.status_code == 422
    assert "kept words" in wrong.content.decode()


def test_a_plot_is_handed_over_in_mid_season(year):
    held = year.held[0]
    page = year.url("hand_over", held.plot.pk, held.pk)
    data = {"last_day": "2024-10-15", "holder": year.cast.member.pk, "why": "moves to the coast"}
    assert year.run.post(page, {**data, "last_day": "2024-02-01"}).status_code == 422
    assert year.run.post(page, data).status_code == 302
    shown = text_of(year.run.get(year.url("plot", held.plot.pk)))
    assert "until Oct. 15, 2024" in shown
    assert "From Oct. 16, 2024" in shown
    assert "moves to the coast" in shown
    again = year.run.post(page, data)
    assert "This has been ended already. Please look again." in text_of(again)
    back = year.run.post(year.url("reopen", held.plot.pk, held.pk), follow=True)
    assert "Maren holds plot A1 from Oct. 16, 2024 on." in text_of(back)

    # Given to the wrong person: taken back before it begins, and then the ending, too.
    given = Change.objects.get(what="plot-given", about_pk=held.plot.pk)
    assert "Undo: The plot was given" in shown
    year.run.post(year.url("change_undo", given.pk))
    year.run.post(year.url("reopen", held.plot.pk, held.pk))
    assert list(held.plot.assignments.values_list("holder", "ended_on")) == [(held.holder_id, None)]
    year.run.post(page, data)
    year.go_to(date(2024, 10, 20))
    assert "Undo: The plot was given" not in text_of(year.run.get(year.url("plot", held.plot.pk)))
    late = year.run.post(year.url("change_undo", Change.objects.latest("pk").pk), follow=True)
    assert "was changed again since" in text_of(late)


@pytest.mark.parametrize(("name", "rows"), [("round", 1), ("round", 3), ("dues", 1), ("dues", 3)])
def test_lists_cost_the_same_with_more_rows(year, name, rows, django_assert_num_queries):
    round = open_round(year)
    wanted = [held.pk for held in year.held[:rows]]
    Assignment.objects.exclude(pk__in=wanted).update(ended_on=date(2024, 9, 1))
    for held in year.held[:rows]:
        Due.objects.create(
            garden=year.garden, season=year.season, person=held.holder, assignment=held, kind="plot",
            amount=5, due_on=date(2024, 10, 9),
        )  # fmt: skip
        year.answers(held, "keep")
    address = year.url("round", round.pk) if name == "round" else year.url("dues")
    with django_assert_num_queries({"round": 11, "dues": 7}[name]):
        page = year.run.get(address)
    assert page.context["shown"].found == rows


def test_more_plots_than_the_rules_allow_need_a_reason(year):
    year.garden.rules.plots_per_household = 1
    year.garden.rules.save()
    page = year.url("plot_holder", year.free[0].pk)
    data = {"season": year.season.pk, "holder": year.cast.holder.pk, "began_on": "2024-10-05"}
    refused = year.run.post(page, data)
    text = "The household of Hollis holds 1; the rules allow 1. Say why, all the same."
    assert (refused.status_code, refused.context["form"].errors["why"]) == (422, [text])
    assert year.run.post(page, {**data, "why": "nobody else waits"}).status_code == 302
    given = text_of(year.run.get(year.url("plot", year.free[0].pk)))
    assert "nobody else waits" in given
