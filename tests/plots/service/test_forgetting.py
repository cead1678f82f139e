"""Forgetting somebody who left: no table says who they were, and what the garden counts is still there."""

import json
from datetime import UTC, date, datetime

import pytest
from django.apps import apps
from django.core.exceptions import ValidationError

from plots import service
from plots.models import Due, HoursDone, Membership, Role, Signature, User, WaitingEntry
from schedules.forms.print_table import PrintForm
from schedules.models import CalendarFeed, Printing, WorkLog
from schedules.service.print_table.keeping import keep
from schedules.service.print_table.kinds import KINDS
from tests.factories import AssignmentFactory, MembershipFactory, PlantingFactory, WaitingFactory

pytestmark = pytest.mark.django_db
NAME, EMAIL, PHONE, ADDRESS = "Zeb Quarkson", "zeb@quarkson.example", "555 019 977", "7 Quark Lane"
DAY = date(2024, 5, 4)


@pytest.fixture
def person(cast, time_machine):
    """Somebody who gardened here, of whom every part of the program has something, and who has left."""
    time_machine.move_to("2024-05-06T18:00Z", tick=False)
    garden, run = cast.garden, cast.coordinator
    told = {"user__email": EMAIL, "user__phone": PHONE, "user__address": ADDRESS}
    membership = MembershipFactory(garden=garden, user__name=NAME, user__sign_in_name="zeb.quarkson", **told)
    person = membership.user
    held = AssignmentFactory(
        plot__garden=garden, plot__label="Q9", season=cast.assignment.season, holder=person
    )
    said = f"{NAME} ({PHONE}) was in hospital"
    _history(cast, membership)
    _care(garden, held, said)
    _the_year(cast, held, said)
    _logs(cast, held, said)
    _paper(cast, said)
    service.end_assignment(assignment=held, ended_on=date(2024, 5, 5), by=run)
    service.remove_member(membership=membership, by=run, why=f"{NAME} moved away")
    return person


def _history(cast, membership):
    person = User.objects.get(pk=membership.user_id)
    person.phone = PHONE
    person.address = ""
    service.change_person(membership=membership, person=person, household="Quark", by=cast.coordinator)
    person.address = ADDRESS
    service.change_person(membership=membership, person=person, household="", by=cast.coordinator)
    service.change_role(membership=membership, role=Role.HELPER, powers=["plots"], by=cast.coordinator)
    service.change_co_gardeners(assignment=cast.assignment, people=[person], by=person)


def _care(garden, held, said):
    held.pauses.create(why="illness", from_on=DAY)
    found = garden.care_rounds.create(day=DAY).findings.create(
        plot=held.plot, line=3, words="Weeds", note=said
    )
    matter = held.matters.create(opened_on=DAY, finding=found, closed_on=DAY, outcome="agreed")
    matter.steps.create(kind="contact", day=DAY, text=said, how="phone")


def _the_year(cast, held, said):
    garden, person, run = cast.garden, held.holder, cast.coordinator
    owed = {"season": held.season, "person": person, "amount": 5, "due_on": DAY}
    service.add_due(due=Due(garden=garden, what=f"key of {NAME}", **owed), by=run)
    service.add_hours(garden=garden, person=person, day=DAY, minutes=90, what=f"with {NAME}", by=run)
    version = garden.agreements.create(number=1, in_force_on=DAY)
    text = version.texts.create(language="en", title="Agreement", body="We water.")
    service.sign(text=text, person=person, name=NAME, how="paper", signed_on=DAY, by=run)
    notice = garden.notices.create(subject="Keys", body=said)
    notice.deliveries.create(person=person, way="phone")
    garden.duties.create(name="Water", holder=person, deputy=person, tasks=f"Ask {NAME.upper()}.")
    garden.whereabouts.create(thing="Keys", place="Shed", knows=f"{NAME}, {EMAIL}")
    reached = {"email": EMAIL, "phone": PHONE, "address": ADDRESS, "note": said}
    left = {"place": None, "left_why": "cancelled", "left_at": datetime(2024, 5, 1, tzinfo=UTC)}
    WaitingFactory(garden=garden, name=NAME, member=person, **reached, **left)


def _logs(cast, held, said):
    person = held.holder
    CalendarFeed.objects.create(user=person, garden=cast.garden)
    service.make_link(user=person)
    PlantingFactory(plot=held.plot, note=said, made_by=person)
    at = {"garden": cast.garden, "plot": held.plot, "day": DAY, "person": person}
    WorkLog.objects.create(work="note", note=said, made_by=person, **at)


def _paper(cast, said):
    notice = cast.garden.notices.create(subject=f"Keys: ask {NAME}", body=said)
    kind = KINDS["gate-notice"]
    form = PrintForm({"notice": notice.pk}, kind=kind, garden=cast.garden, user=cast.coordinator)
    assert form.is_valid()
    keep(kind=kind, asked=form.asked(), by=cast.coordinator, filled_in=form.kept)


def everything_kept() -> str:
    """Every row of every table, in small letters."""
    rows = [
        json.dumps(list(model._default_manager.values()), default=str, ensure_ascii=False)
        for model in apps.get_models()
    ]
    return "\n".join(rows).casefold()


def test_nothing_is_left_of_who_they_were_and_all_that_is_counted(cast, person):
    for told in (NAME, EMAIL, PHONE, ADDRESS, "hospital", "zeb"):
        assert told.casefold() in everything_kept(), told
    service.forget_person(garden=cast.garden, person=person, by=cast.coordinator)
    kept = everything_kept()
    for told in (NAME, EMAIL, PHONE, ADDRESS, "zeb"):
        assert told.casefold() not in kept, told
    person.refresh_from_db()
    assert (person.is_active, person.has_usable_password()) == (False, False)
    held = person.assignments.get()
    counts = {
        "held until": str(held.ended_on),
        "hours": sum(HoursDone.objects.filter(person=person).values_list("minutes", flat=True)),
        "dues": [int(due.amount) for due in person.dues.all()],
        "signed": Signature.objects.filter(person=person, name="a former member").count(),
        "logs": person.work_logs.count(),
        "matter": [(step.kind, step.text) for step in held.matters.get().steps.all()],
        "finding": [(one.words, one.note) for one in held.plot.findings.all()],
        "pauses": held.pauses.count(),
        "feeds": person.calendar_feeds.count(),
        "links": person.sign_in_links.count(),
        "printed": Printing.objects.count(),
        "waiting": list(WaitingEntry.objects.values_list("name", "note")),
        "duty": list(cast.garden.duties.values_list("holder", "tasks")),
    }
    assert counts == {
        "held until": "2024-05-05",
        "hours": 90,
        "dues": [5],
        "signed": 1,
        "logs": 1,
        "matter": [("contact", "")],
        "finding": [("Weeds", "")],
        "pauses": 0,
        "feeds": 0,
        "links": 0,
        "printed": 0,
        "waiting": [("a former member", "")],
        "duty": [(None, "Ask a former member.")],
    }


def test_who_still_waits_or_belongs_here_is_not_forgotten(cast, person):
    entry = WaitingFactory(garden=cast.garden, name="Z", member=person)
    with pytest.raises(ValidationError, match="still waits for a plot"):
        service.forget_person(garden=cast.garden, person=person, by=cast.coordinator)
    entry.delete()
    Membership.objects.create(garden=cast.garden, user=person)
    with pytest.raises(ValidationError, match="still belongs to a garden"):
        service.forget_person(garden=cast.garden, person=person, by=cast.coordinator)


def test_a_name_of_one_word_stays_where_it_may_mean_something_else(cast, person):
    User.objects.filter(pk=person.pk).update(name="Rose")
    person.refresh_from_db()
    cast.garden.notices.create(subject="Rose pruning", body="Bring gloves.")
    service.forget_person(garden=cast.garden, person=person, by=cast.coordinator)
    assert cast.garden.notices.filter(subject="Rose pruning").exists()
