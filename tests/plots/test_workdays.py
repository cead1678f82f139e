"""Workdays: planned, moved, signed up for, and typed in from paper."""

from datetime import date, time

import pytest
from django.core.exceptions import ValidationError
from django.urls import reverse

from plots import queries, service
from plots.models import Change, Held, HoursDone, SignUp, Workday, WorkTask
from tests.factories import MembershipFactory

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def may(time_machine):
    time_machine.move_to("2024-05-01T18:00Z", tick=False)


@pytest.fixture
def on_the_day(time_machine):
    time_machine.move_to("2024-05-04T20:00Z", tick=False)


@pytest.fixture
def workday(cast) -> Workday:
    day = Workday(garden=cast.garden, name="Paths", day=date(2024, 5, 4), rain_day=date(2024, 5, 11))
    return service.keep_workday(
        workday=day, tasks=[WorkTask(name="Edges", places=1), WorkTask(name="Chips")], by=cast.coordinator
    )


@pytest.fixture
def tasks(workday) -> list[WorkTask]:
    return list(workday.tasks.order_by("pk"))


def url(name, cast, **more):
    return reverse(f"plots:{name}", kwargs={"slug": cast.garden.slug, **more})


def form_of(workday, **changes):
    return {
        "name": workday.name, "day": "2024-05-04", "rain_day": "2024-05-11", "starts_at": "09:00",
        "ends_at": "12:00", "tasks-TOTAL_FORMS": "1", "tasks-INITIAL_FORMS": "0", "tasks-0-name": "",
        **changes,
    }  # fmt: skip


@pytest.mark.parametrize("rows", [1, 3])
def test_the_list_costs_the_same_with_more_workdays(cast, as_user, workday, rows, django_assert_num_queries):
    for _n in range(rows - 1):
        service.keep_workday(
            workday=Workday(garden=cast.garden, name="More", day=date(2024, 6, 1)), by=cast.coordinator
        )
    member = as_user(cast.holder)
    with django_assert_num_queries(6):  # session, person, membership and garden, workdays, powers, own
        page = member.get(url("workdays", cast))
    assert len(page.context["shown"].rows) == rows


@pytest.mark.parametrize("people", [1, 3])
def test_a_workday_costs_the_same_with_more_people(
    cast, as_user, workday, tasks, people, django_assert_num_queries
):
    for _n in range(people):
        person = MembershipFactory(garden=cast.garden).user
        service.sign_up(task=tasks[1], person=person, by=person)
    member = as_user(cast.holder)
    with django_assert_num_queries(9):
        page = member.get(url("workday", cast, pk=workday.pk))
    assert page.content.decode().count("Person ") == people


def test_a_workday_is_planned_with_its_tasks_on_one_page(cast, as_user):
    run = as_user(cast.coordinator)
    new = Workday(name="Compost")
    changes = {
        "tasks-TOTAL_FORMS": "3",
        "tasks-0-name": "Turn it",
        "tasks-0-places": "4",
        "tasks-2-name": "Sieve",
    }
    answer = run.post(url("workday_new", cast), form_of(new, **changes))
    made = Workday.objects.get()
    assert answer.headers["Location"] == url("workday", cast, pk=made.pk)
    assert list(made.tasks.values_list("name", "places")) == [("Turn it", 4), ("Sieve", None)]
    assert (made.starts_at, made.minutes) == (time(9), 180)


def test_a_workday_without_tasks_gets_one_for_all_who_come(cast, as_user):
    as_user(cast.coordinator).post(url("workday_new", cast), form_of(Workday(name="Compost")))
    assert WorkTask.objects.get().places is None


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"rain_day": "2024-05-04"}, "The rain date must come after the day itself."),
        ({"ends_at": "08:00"}, "It must end after it starts."),
        ({"tasks-0-name": "Dig", "tasks-0-places": "none"}, "This must be a whole number."),
    ],
)
def test_what_cannot_be_is_said_and_nothing_typed_is_lost(cast, as_user, changes, said):
    answer = as_user(cast.coordinator).post(
        url("workday_new", cast), form_of(Workday(name="Compost"), **changes)
    )
    page = answer.content.decode()
    assert (answer.status_code, Workday.objects.count()) == (422, 0)
    assert said in page
    assert "Compost" in page


def test_it_moves_to_its_rain_date_and_back_with_who_did_so(cast, as_user, workday):
    run = as_user(cast.coordinator)
    run.post(url("workday_hold", cast, pk=workday.pk), {"held": "rain"})
    workday.refresh_from_db()
    assert (workday.held, workday.on) == (Held.RAIN, date(2024, 5, 11))
    moved = Change.objects.get(what="workday-moved")
    assert (moved.by, moved.before, moved.after) == (cast.coordinator, {"held": "day"}, {"held": "rain"})
    run.post(reverse("plots:change_undo", args=[cast.garden.slug, moved.pk]))
    workday.refresh_from_db()
    assert workday.held == Held.DAY


def test_a_member_signs_up_changes_their_mind_and_withdraws(cast, as_user, workday, tasks):
    member = as_user(cast.holder)
    member.post(url("task_join", cast, pk=tasks[0].pk))
    member.post(url("task_join", cast, pk=tasks[1].pk))
    assert list(SignUp.objects.values_list("task", "person")) == [(tasks[1].pk, cast.holder.pk)]
    page = member.get(url("workday", cast, pk=workday.pk)).content.decode()
    assert "Withdraw from Chips" in page
    member.post(url("task_leave", cast, pk=tasks[1].pk))
    assert not SignUp.objects.exists()


def test_a_task_takes_only_the_people_it_needs(cast, tasks):
    service.sign_up(task=tasks[0], person=cast.holder, by=cast.holder)
    with pytest.raises(ValidationError, match="all the people it needs"):
        service.sign_up(task=tasks[0], person=cast.member, by=cast.member)
    service.sign_up(task=tasks[0], person=cast.holder, by=cast.holder)
    assert SignUp.objects.count() == 1


@pytest.mark.parametrize(("held", "today"), [("off", date(2024, 5, 1)), ("day", date(2024, 5, 5))])
def test_nobody_signs_up_for_what_is_over_or_called_off(cast, workday, tasks, held, today):
    Workday.objects.update(held=held)
    with pytest.raises(ValidationError):
        service.sign_up(task=tasks[1], person=cast.holder, by=cast.holder, today=today)


def test_only_who_runs_workdays_puts_others_down(cast, as_user, tasks):
    address, wanted = url("task_join", cast, pk=0), {"task": tasks[1].pk, "person": cast.member.pk}
    assert as_user(cast.holder).post(address, wanted).status_code == 403
    as_user(cast.coordinator).post(address, wanted)
    one = SignUp.objects.get()
    assert (one.person, one.made_by) == (cast.member, cast.coordinator)


def test_a_person_of_another_garden_is_not_put_down(cast, as_user, tasks):
    wanted = {"person": cast.stranger.pk}
    assert as_user(cast.coordinator).post(url("task_join", cast, pk=tasks[1].pk), wanted).status_code == 404


def rows():
    return list(
        HoursDone.objects.filter(removed_at=None)
        .order_by("pk")
        .values_list("person__name", "guest", "minutes")
    )


@pytest.mark.usefixtures("on_the_day")
def test_a_sheet_is_typed_in_and_counts_once_however_often(cast, as_user, workday, tasks):
    service.sign_up(task=tasks[0], person=cast.holder, by=cast.holder)
    run, address = as_user(cast.coordinator), url("workday_sheet", cast, pk=workday.pk)
    typed = {f"came-{cast.holder.pk}": "x", "others": "mar 9-11\n+ Pat Ashby 1 1/2"}
    run.post(address, typed)
    assert rows() == [("Hollis", "", 180), ("Maren", "", 120), (None, "Pat Ashby", 90)]
    again = {f"came-{cast.holder.pk}": "3", f"came-{cast.member.pk}": "2", "others": ""}
    run.post(address, again)
    assert rows() == [("Hollis", "", 180), ("Maren", "", 120), (None, "Pat Ashby", 90)]
    assert run.post(address, {**again, "others": "+ pat ashby 3"}).status_code == 422


@pytest.mark.usefixtures("on_the_day")
def test_a_correction_removes_what_stood_there_and_keeps_it(cast, workday):
    service.type_sheet(
        workday=workday, minutes={cast.holder.pk: 180, cast.member.pk: 60}, by=cast.coordinator
    )
    service.type_sheet(workday=workday, minutes={cast.holder.pk: 120, cast.member.pk: None}, by=cast.helper)
    assert rows() == [("Hollis", "", 120)]
    gone = HoursDone.objects.exclude(removed_at=None).values_list(
        "person__name", "minutes", "removed_by__name"
    )
    assert sorted(gone) == [("Hollis", 180, "Hilde"), ("Maren", 60, "Hilde")]


def test_nothing_is_kept_while_a_line_is_wrong_and_each_says_why(cast, as_user, workday, tasks):
    service.sign_up(task=tasks[0], person=cast.holder, by=cast.holder)
    typed = {f"came-{cast.holder.pk}": "three", "others": "maren 2\nzoe 2\nh 1"}
    answer = as_user(cast.coordinator).post(url("workday_sheet", cast, pk=workday.pk), typed)
    page = answer.content.decode()
    assert (answer.status_code, rows()) == (422, [])
    for said in (
        "“three” cannot be read as a time worked.",
        "Line 2, “zoe 2”: no member is called so.",
        "Line 3, “h 1”: this may be Hilde, Hollis.",
        "maren 2\nzoe 2\nh 1",
        'value="three"',
    ):
        assert said in page


@pytest.mark.usefixtures("on_the_day")
def test_hours_are_seen_by_who_runs_workdays_alone(cast, as_user, workday):
    service.type_sheet(workday=workday, minutes={cast.holder.pk: 135}, by=cast.coordinator)
    address = url("workday", cast, pk=workday.pk)
    assert "2\u00a0h\u00a015\u00a0min" in as_user(cast.coordinator).get(address).content.decode()
    assert "15\u00a0min" not in as_user(cast.member).get(address).content.decode()


def test_a_make_up_job_is_taken_done_and_counted_once(cast, as_user):
    run, member = as_user(cast.coordinator), as_user(cast.holder)
    run.post(url("make_up_job_new", cast), {"name": "Wash pots", "minutes": "1.5", "places": "1"})
    job = WorkTask.objects.get()
    member.post(url("task_join", cast, pk=job.pk))
    assert queries.make_up_jobs(cast.garden)[0].free == 0
    for _press in range(2):
        run.post(url("make_up_job_done", cast, pk=job.pk), {"person": cast.holder.pk})
    assert rows() == [("Hollis", "", 90)]
    assert queries.make_up_jobs(cast.garden)[0].free == 0
    table = run.get(url("make_up_jobs", cast), {"state": "full", "as": "csv"}).content.decode().splitlines()
    assert table[1:] == ["Wash pots,,1:30,,0,,Hollis,"]
    assert run.get(url("make_up_jobs", cast), {"state": "begun"}).context["shown"].rows == []
    run.post(url("make_up_job_close", cast, pk=job.pk))
    assert queries.make_up_jobs(cast.garden) == []
    assert rows() == [("Hollis", "", 90)]


def test_everybody_of_a_workday_is_a_list_with_numbers_only_for_who_keeps_the_roster(
    cast, as_user, workday, tasks
):
    person = MembershipFactory(garden=cast.garden, user__phone="555 0170").user
    service.sign_up(task=tasks[0], person=person, by=person)
    guest = {"guest": "Pat", "day": workday.day, "minutes": 90}
    cast.garden.hours_done.create(workday=workday, **guest)
    run = as_user(cast.coordinator)
    address = url("workday_people", cast, pk=workday.pk)
    sheet = run.get(f"{address}?as=csv").content.decode()
    assert f"{person.name},Edges,,555 0170," in sheet
    assert "Pat,guest,1.5," in sheet
    assert [one.name for one in run.get(f"{address}?state=down").context["shown"].rows] == [person.name]
    helper = MembershipFactory(garden=cast.garden, role="helper", powers=["workdays"]).user
    assert "555 0170" not in as_user(helper).get(f"{address}?as=csv").content.decode()


def test_nobody_has_worked_on_a_day_to_come(cast, as_user, workday):
    run, address = as_user(cast.coordinator), url("workday_sheet", cast, pk=workday.pk)
    answer = run.post(address, {"others": "maren 2"})
    assert (answer.status_code, rows()) == (422, [])
    assert "This workday is still to come." in answer.content.decode()
    assert "maren 2" in answer.content.decode()
    assert "Type the sheet in" not in run.get(url("workday", cast, pk=workday.pk)).content.decode()
