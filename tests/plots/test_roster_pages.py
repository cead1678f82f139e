"""Consent, households, sharing, invitations, import, and forgetting: the pages around the roster."""

from datetime import date

import pytest
from django.urls import reverse

from plots import service
from plots.models import Assignment, Change, ContactFor, LinkRequest, Membership, User
from tests.factories import MembershipFactory, PlotFactory, SeasonFactory
from tests.texts import text_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def run(cast, as_user, time_machine):
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    return as_user(cast.coordinator)


def url(name, cast, **more):
    return reverse(f"plots:{name}", kwargs={"slug": cast.garden.slug, **more})


def of(cast, person) -> Membership:
    return Membership.objects.get(garden=cast.garden, user=person)


def share(cast, on=True):
    type(cast.garden.rules).objects.filter(garden=cast.garden).update(share_contacts=on)


@pytest.mark.parametrize(("garden_shares", "seen"), [(True, [True, False]), (False, [False, False])])
def test_members_see_only_what_was_agreed_and_only_if_the_garden_shares(cast, as_user, garden_shares, seen):
    User.objects.filter(pk=cast.holder.pk).update(phone="555 0100", email="hollis@example.org")
    share(cast, garden_shares)
    everybody = {"phone_for": "members", "email_for": "keepers", "address_for": "keepers"}
    as_user(cast.holder).post(url("own_part", cast), everybody)
    for address in (url("members", cast), f"{url('members', cast)}?as=csv"):
        page = as_user(cast.member).get(address).content.decode()
        assert [text in page for text in ("555 0100", "hollis@example.org")] == seen
    kept = Change.objects.get(what="consent-changed")
    assert (kept.before, kept.after, kept.by) == (
        {"phone_for": ContactFor.KEEPERS},
        {"phone_for": ContactFor.MEMBERS},
        cast.holder,
    )


def test_the_emergency_call_stays_out_of_the_history(cast, as_user):
    choices = dict.fromkeys(("phone_for", "email_for", "address_for"), "keepers")
    call = {"emergency_name": "Hanna", "emergency_phone": "555 0111"}
    as_user(cast.holder).post(url("own_part", cast), {**choices, **call})
    assert of(cast, cast.holder).emergency_phone == "555 0111"
    assert "555 0111" not in repr(list(Change.objects.values()))


def test_the_roster_filters_and_sorts(run, cast):
    User.objects.filter(pk=cast.holder.pk).update(phone="1")
    service.ask_for_link(account="Maren")

    def names(query):
        return [row.name for row in run.get(f"{url('members', cast)}?{query}").context["shown"].rows]

    assert names("plot=yes") == ["Corin", "Hollis"]
    assert names("link=asked") == ["Maren"]
    assert names("reached=no-phone&sort=-name")[0] == "Maren"
    assert "Hollis" not in names("reached=no-phone")
    assert names("q=a1") == ["Corin", "Hollis"]


def test_a_household_is_joined_by_name_and_goes_away_with_its_last_member(run, cast):
    def live_with(person, name):
        data = {"name": person.name, "sign_in_name": person.sign_in_name, "household": name}
        return run.post(url("member_edit", cast, pk=of(cast, person).pk), data)

    live_with(cast.holder, "Moss")
    live_with(cast.co_gardener, " moss ")
    assert of(cast, cast.holder).household == of(cast, cast.co_gardener).household
    live_with(cast.co_gardener, "")
    live_with(cast.holder, "")
    assert not cast.garden.households.exists()
    assert Change.objects.filter(what="household-changed").count() == 4


def test_a_helper_has_the_stated_powers_and_loses_them_with_the_part(run, cast):
    address = url("member", cast, pk=of(cast, cast.member).pk)
    run.post(address, {"role": "helper", "powers": ["plots", "care"], "why": "Knows the taps"})
    assert of(cast, cast.member).powers == ["care", "plots"]
    wrong = run.post(address, {"role": "member", "powers": ["plots"]})
    assert (wrong.status_code, list(wrong.context["form"].errors)) == (422, ["powers"])
    run.post(address, {"role": "member"})
    assert of(cast, cast.member).powers == []
    change = Change.objects.filter(what="role-changed").first()
    run.post(reverse("plots:change_undo", args=[cast.garden.slug, change.pk]))
    assert (of(cast, cast.member).role, of(cast, cast.member).powers) == ("helper", ["care", "plots"])


def test_co_gardeners_change_with_a_history_and_back(run, cast):
    address = url("co_gardeners", cast, pk=cast.plot.pk, assignment_pk=cast.assignment.pk)
    run.post(address, {"people": [cast.member.pk], "why": "Corin moved"})
    assert list(cast.assignment.co_gardeners.all()) == [cast.member]
    change = Change.objects.get(what="sharing-changed")
    assert [kept["name"] for kept in change.before["co_gardeners"]] == ["Corin"]
    run.post(reverse("plots:change_undo", args=[cast.garden.slug, change.pk]))
    assert list(cast.assignment.co_gardeners.all()) == [cast.co_gardener]


def test_an_invitation_is_a_link_to_copy_and_a_code_to_scan(run, cast):
    address = url("member_link", cast, pk=of(cast, cast.member).pk)
    page = run.get(run.post(address).headers["Location"])
    assert page.context["link"] in page.content.decode()
    assert '<svg class="qr"' in page.content.decode()


@pytest.mark.parametrize("account", ["maren", "MAREN", "maren@example.org"])
def test_whoever_cannot_come_in_asks_once_and_is_settled_by_a_link(cast, as_user, run, account):
    User.objects.filter(pk=cast.member.pk).update(email="maren@example.org")
    for _twice in range(2):
        as_user(None).post("/link/", {"account": account})
    assert [request.user for request in LinkRequest.objects.all()] == [cast.member]
    assert [row.name for row in run.get(url("members", cast)).context["shown"].rows if row.asked_at] == [
        "Maren"
    ]
    run.post(url("member_link", cast, pk=of(cast, cast.member).pk))
    assert not any(row.asked_at for row in run.get(url("members", cast)).context["shown"].rows)


def test_asking_tells_nobody_who_belongs_to_a_garden(cast, as_user):
    MembershipFactory(garden=cast.garden, user__name="Maren")  # now two are called so
    answers = {as_user(None).post("/link/", {"account": who}).content for who in ("Hollis", "nobody")}
    assert len({text.decode().split("<main")[1] for text in answers}) == 1
    as_user(None).post("/link/", {"account": "Maren Nobody"})
    assert LinkRequest.objects.count() == 1


def test_a_link_goes_to_the_address_the_garden_knows(cast, as_user, run, settings, mailoutbox):
    settings.EMAIL_FROM = "garden@example.org"
    User.objects.filter(pk=cast.member.pk).update(email="maren@example.org")
    run.post(url("member_link", cast, pk=of(cast, cast.member).pk))  # one handed over is no letter
    for _twice in range(2):
        as_user(None).post("/link/", {"account": "Maren"})
    (letter,) = mailoutbox  # the second request finds a letter on its way
    assert letter.to == ["maren@example.org"]
    token = letter.body.split("/link/")[1].split("/")[0]
    assert as_user(None).post(f"/link/{token}/").headers["Location"] == "/"
    run.post(url("member_link_post", cast, pk=of(cast, cast.member).pk))
    assert len(mailoutbox) == 2


def test_a_link_that_cannot_be_sent_is_shown_instead(cast, run):
    page = run.post(url("member_link_post", cast, pk=of(cast, cast.member).pk), follow=True)
    assert "It could not be sent." in text_of(page)
    assert page.context["link"] in page.content.decode()


SHEET = "Name;Email;Household;Plot\nAna Ruiz;ana@x.org;Ruiz;A2\nLuz Ruiz;;Ruiz;A2\nCorin;;;\n"


def test_people_come_over_from_a_spreadsheet_all_at_once(run, cast):
    PlotFactory(garden=cast.garden, label="A2")
    season = SeasonFactory(garden=cast.garden, starts_on=date(2026, 1, 1), ends_on=date(2026, 12, 31))
    address = url("roster_import", cast)
    page = run.post(address, {"pasted": SHEET})
    assert page.context["form"]["season"].initial == season  # or the plots would be passed over unseen
    assert page.context["counts"] == {"new": 2, "joins": 0, "here": 1, "wrong": 0}
    assert not User.objects.filter(name="Ana Ruiz").exists()
    columns = {f"column_{n}": kind for n, kind in enumerate(("name", "email", "household", "plots"))}
    sent = {"text": SHEET, **columns, "season": season.pk, "import": "yes"}
    assert run.post(address, sent).headers["Location"] == url("members", cast)
    ana, luz = (User.objects.get(name=name) for name in ("Ana Ruiz", "Luz Ruiz"))
    held = Assignment.objects.get(plot__label="A2")
    assert (held.holder, list(held.co_gardeners.all()), held.began_on) == (ana, [luz], date(2026, 4, 22))
    assert of(cast, ana).household == of(cast, luz).household
    again = run.post(address, sent)
    assert Assignment.objects.filter(plot__label="A2").count() == 1
    assert again.status_code == 302  # everybody is here already: nothing changes


def test_one_wrong_row_keeps_everything_out_unless_it_is_left_out(run, cast):
    text = "Name,Email\nAna,ana@x.org\nBo,nowhere\n"
    sent = {"text": text, "column_0": "name", "column_1": "email", "import": "yes"}
    refused = run.post(url("roster_import", cast), sent)
    assert refused.status_code == 422
    assert "“nowhere” is not an email address." in text_of(refused)
    assert not User.objects.filter(name="Ana").exists()
    run.post(url("roster_import", cast), {**sent, "leave_out": "on"})
    assert (User.objects.filter(name="Ana").exists(), User.objects.filter(name="Bo").exists()) == (
        True,
        False,
    )


def test_two_columns_for_one_thing_are_refused_with_its_name(run, cast):
    sent = {"text": "A,B\nx,y", "column_0": "name", "column_1": "name", "import": "yes"}
    page = run.post(url("roster_import", cast), sent)
    assert page.status_code == 422
    assert "More than one column is matched with: name." in text_of(page)


def test_whoever_left_is_forgotten_by_a_person_and_their_name_goes_from_the_history(run, cast):
    person = MembershipFactory(garden=cast.garden, user__name="Lena Lind", user__email="lena@x.org").user
    membership = of(cast, person)
    service.change_co_gardeners(assignment=cast.assignment, people=[person], by=cast.coordinator)
    assert run.post(url("person_forget", cast, pk=person.pk)).status_code == 404  # still a member
    service.remove_member(membership=membership, by=cast.coordinator)
    assert "Lena Lind" in text_of(run.get(url("people_left", cast), {"q": "lena", "sort": "-left_on"}))
    assert (
        "Lena Lind,2026-04-22,2027-04-22"
        in run.get(url("people_left", cast), {"kept": "still", "as": "csv"}).content.decode()
    )
    assert "Forget" not in text_of(run.get(url("people_left", cast), {"kept": "due"}))
    run.post(url("person_forget", cast, pk=person.pk))
    person.refresh_from_db()
    assert (person.email, person.is_active) == (None, False)
    assert "Lena" not in repr(list(Change.objects.values())) + repr(list(User.objects.values()))


def test_duties_and_things_are_kept_with_their_history(run, cast, as_user):
    run.post(url("duty_new", cast), {"name": "Compost", "tasks": "Turn it."})
    run.post(url("whereabout_new", cast), {"thing": "Lease", "place": "Blue folder"})
    assert "nobody yet" in text_of(as_user(cast.member).get(url("duties", cast)))
    assert "Lease" not in text_of(as_user(cast.member).get(url("whereabouts", cast)))
    twice = run.post(url("duty_new", cast), {"name": "compost"})
    assert twice.status_code == 422
    run.post(url("duty_remove", cast, pk=cast.garden.duties.get().pk))
    codes = Change.objects.order_by("pk").values_list("what", flat=True)
    assert list(codes) == ["duty-made", "whereabout-made", "duty-removed"]


def test_duties_and_things_come_back_as_they_were(run, cast):
    run.post(url("duty_new", cast), {"name": "Compost", "holder": cast.member.pk, "until": "2026-10-01"})
    duty = cast.garden.duties.get()
    run.post(
        url("duty_edit", cast, pk=duty.pk), {"name": "Compost", "holder": cast.holder.pk, "tasks": "Turn"}
    )
    page = text_of(run.get(url("duty_edit", cast, pk=duty.pk)))
    assert "done by from Maren to Hollis" in page
    assert "Undo: The duty was changed" in page
    undo_last(run, cast, "duty-changed")
    duty.refresh_from_db()
    assert (duty.holder, str(duty.until), duty.tasks) == (cast.member, "2026-10-01", "")
    run.post(url("duty_remove", cast, pk=duty.pk))
    assert "Undo: The duty was taken off the list" in text_of(run.get(url("duties", cast)))
    undo_last(run, cast, "duty-removed")
    assert (cast.garden.duties.get().holder, "Undo:" in text_of(run.get(url("duties", cast)))) == (
        cast.member,
        False,
    )
    run.post(url("duty_remove", cast, pk=cast.garden.duties.get().pk))
    service.remove_member(membership=of(cast, cast.member), by=cast.coordinator)
    undone = run.post(
        url("change_undo", cast, pk=Change.objects.filter(what="duty-removed").first().pk), follow=True
    )
    assert "Who did it then does not belong to the garden any more." in text_of(undone)
    run.post(url("whereabout_new", cast), {"thing": "Lease", "place": "Blue folder", "due_on": "2027-01-31"})
    run.post(url("whereabout_remove", cast, pk=cast.garden.whereabouts.get().pk))
    undo_last(run, cast, "whereabout-removed")
    assert str(cast.garden.whereabouts.get().due_on) == "2027-01-31"


def undo_last(run, cast, code):
    change = Change.objects.filter(what=code, undoes=None).first()
    return run.post(url("change_undo", cast, pk=change.pk), follow=True)


def test_what_was_agreed_on_paper_is_typed_in_and_the_member_sees_by_whom(run, cast, as_user):
    address = url("paper_consent", cast, pk=of(cast, cast.holder).pk)
    said = {"email_for": "keepers", "phone_for": "members", "address_for": "keepers", "weekly_letter": "on"}
    late = run.post(address, {**said, "agreed_on": "2026-05-01"})
    assert (late.status_code, "This day has not come yet." in text_of(late)) == (422, True)
    assert run.post(address, {**said, "agreed_on": "2026-04-18"}).status_code == 302
    assert (of(cast, cast.holder).phone_for, of(cast, cast.holder).weekly_letter) == ("members", True)
    own = text_of(as_user(cast.holder).get(url("own_part", cast)))
    assert "Cora A paper says who may see how to reach them" in own
    assert "agreed on now April 18, 2026" in own
    assert "Undo:" not in own
    undo_last(run, cast, "consent-on-paper")
    assert (of(cast, cast.holder).phone_for, of(cast, cast.holder).weekly_letter) == ("keepers", False)
    # What a member says on their own page is theirs to change.
    as_user(cast.holder).post(url("own_part", cast), {**said, "email_for": "members"})
    assert undo_last(run, cast, "consent-changed").status_code == 404


def test_households_show_their_plots_against_what_is_allowed(run, cast):
    for person in (cast.holder, cast.member):
        service.join_household(membership=of(cast, person), name="Elm Court 4", by=cast.coordinator)
    season = cast.assignment.season
    for label, holder in (("A10", cast.member), ("A2", cast.member), ("B1", cast.co_gardener)):
        plot = PlotFactory(garden=cast.garden, label=label)
        service.assign_plot(plot=plot, season=season, holder=holder, began_on=season.starts_on)
    rows = run.get(url("households", cast), {"as": "csv"}).content.decode().splitlines()
    assert rows[1:3] == ["Cora,Cora,,0,2,no plot", "Corin,Corin,B1,1,2,fewer"]
    page = text_of(run.get(url("households", cast), {"state": "above", "kind": "together"}))
    assert "Elm Court 4 Hollis , Maren A1, A2, A10 3 more plots than the rules allow" in page
    change = Change.objects.filter(what="household-changed", about_pk=cast.member.pk).get()
    service.undo(change=change, by=cast.coordinator)
    assert of(cast, cast.member).household is None
    assert run.get(url("households", cast), {"state": "above"}).context["shown"].rows == []


@pytest.mark.parametrize("rows", [1, 3])
@pytest.mark.parametrize(("page", "queries"), [("duties", 6), ("whereabouts", 7), ("households", 6)])
def test_lists_cost_the_same_with_more_rows(run, cast, rows, page, queries, django_assert_num_queries):
    for n in range(rows):
        cast.garden.duties.create(name=f"Duty {n}", holder=cast.holder, deputy=cast.member)
        cast.garden.whereabouts.create(thing=f"Thing {n}", place="Shed")
    with django_assert_num_queries(queries):
        run.get(url(page, cast))


def test_moments_are_told_by_the_clock_of_the_garden(cast, run, time_machine):
    time_machine.move_to("2026-04-23T03:12Z", tick=False)  # the evening before in Denver
    member = MembershipFactory(garden=cast.garden)
    LinkRequest.objects.create(user=member.user)
    assert "(April 22, 2026, 9:12 p.m.)" in text_of(run.get(url("member", cast, pk=member.pk)))
    sheet = run.get(f"{url('members', cast)}?as=csv&q={member.user.name}").content.decode()
    assert sheet.splitlines()[1].endswith(",2026-04-22")
