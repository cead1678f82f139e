"""Sheets that are kept, printed again and thrown away, and everyone's in one file."""

from __future__ import annotations

import errno
import re
from datetime import date
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.core.files.storage import default_storage
from django.test import Client
from pypdf import PdfReader

from plots import service
from plots.models import SignInLink, User
from schedules.models import Printing, PrintingPart
from schedules.service.print_table import keeping
from schedules.service.print_table.kinds import KINDS
from tests.cast import Cast
from tests.factories import AssignmentFactory, MembershipFactory
from tests.schedules.printing import TABLE, body, words
from tests.schedules.samples import carrot, planted
from tests.texts import text_of

# --- keeping ---


def printed(client: Client, code: str, **choices: object) -> Printing:
    answer = client.post(f"{TABLE}{code}/", {"asked": "1", "paper": "letter", **choices})
    assert answer.status_code == 302, answer.context["form"].errors
    key = answer.headers["Location"].removeprefix(f"{TABLE}before/")[:36]
    return Printing.objects.get(key=key)


def test_what_was_printed_is_printed_again_just_as_it_was(cast, as_user, run):
    cast.garden.dates.create(kind="other", title="Seed swap", day=date(2026, 5, 2), public=True)
    holder = as_user(cast.holder)
    row = printed(holder, "dates", year="2026")
    assert (row.made_by, row.title, row.asked["year"]) == (cast.holder, "Dates of 2026", ["2026"])
    first = body(holder.get(f"{TABLE}before/{row.key}.pdf"))
    assert (sha256(first).hexdigest(), len(first)) == (row.sha256, row.size)
    assert "Seed swap" in words(first)
    assert printed(holder, "dates", year="2026").pk == row.pk  # the same file is kept once

    cast.garden.dates.all().delete()
    answer = holder.get(f"{TABLE}before/{row.key}.pdf")
    assert (body(answer), answer.headers["Cache-Control"]) == (first, "private, no-store")
    assert answer.headers["Content-Disposition"] == 'inline; filename="linden-row-dates-of-the-year-2026.pdf"'
    page = text_of(holder.get(f"{TABLE}before/{row.key}/"))
    assert ("Open the PDF" in page, "Make it anew" in page) == (True, True)
    assert printed(holder, "dates", year="2026").pk != row.pk


def test_a_sheet_that_is_thrown_away_takes_its_file_along(cast, run, django_capture_on_commit_callbacks):
    row = printed(run, "dates", year="2026")
    assert default_storage.exists(row.file.name)
    with django_capture_on_commit_callbacks(execute=True):
        assert run.post(f"{TABLE}before/{row.key}/remove/").status_code == 302
    assert not Printing.objects.exists()
    assert not default_storage.exists(row.file.name)


def test_a_kept_sheet_is_for_who_printed_it_and_for_coordinators(cast, as_user, run):
    row = printed(as_user(cast.holder), "dates", year="2026")
    for way in (f"{row.key}/", f"{row.key}.pdf"):
        got = [
            as_user(one).get(f"{TABLE}before/{way}").status_code
            for one in (cast.member, cast.helper, cast.stranger)
        ]
        assert got == [404] * 3
        assert run.get(f"{TABLE}before/{way}").status_code == 200
    assert "Dates of 2026" not in text_of(as_user(cast.member).get(f"{TABLE}before/"))
    assert "Dates of 2026" in text_of(run.get(f"{TABLE}before/"))


def test_who_may_print_it_no_more_finds_it_no_more(cast, as_user, run):
    cast.garden.memberships.filter(user=cast.helper).update(powers=["notices"])
    helper, notice = as_user(cast.helper), cast.garden.notices.create(subject="Keys", body="Ask.")
    row = printed(helper, "gate-notice", notice=notice.pk)
    assert "Keys" in text_of(helper.get(f"{TABLE}before/"))
    cast.garden.memberships.filter(user=cast.helper).update(powers=[])
    assert "Keys" not in text_of(helper.get(f"{TABLE}before/"))
    assert helper.get(f"{TABLE}before/{row.key}.pdf").status_code == 404


def test_who_looks_after_others_no_more_finds_their_sheets_no_more(cast, as_user, run):
    helper = as_user(cast.helper)
    theirs = printed(helper, "calendar", member=cast.holder.pk, year="2026")
    everyones_ = printed(helper, "calendar", member="everyone", year="2026")
    own = printed(helper, "poster", member=cast.helper.pk, year="2026")
    assert helper.get(f"{TABLE}before/").context["shown"].total == 3
    cast.garden.memberships.filter(user=cast.helper).update(role="member", powers=[])
    assert [row.key for row in helper.get(f"{TABLE}before/").context["shown"].rows] == [own.key]
    for row, status in ((theirs, 404), (everyones_, 404), (own, 200)):
        assert helper.get(f"{TABLE}before/{row.key}/").status_code == status
    assert helper.get(f"{TABLE}before/{theirs.key}.pdf").status_code == 404
    assert helper.post(f"{TABLE}before/{everyones_.key}/next/").status_code == 404
    assert run.get(f"{TABLE}before/").context["shown"].total == 3


@pytest.mark.parametrize("rows", [1, 3])
def test_the_list_of_kept_sheets_costs_the_same_for_more(cast, run, rows, django_assert_num_queries):
    for year in range(2024, 2024 + rows):
        printed(run, "dates", year=str(year))
    with django_assert_num_queries(14):
        assert run.get(f"{TABLE}before/").context["shown"].total == rows


@pytest.mark.parametrize("code", ["roster", "waiting-list", "emergency", "hand-over"])
def test_private_sheets_are_not_kept_and_say_so(code, run):
    page = run.get(f"{TABLE}{code}/")
    assert "No copy of this sheet is kept here" in text_of(page)
    assert page.headers["Cache-Control"] == "private, no-store"
    answer = run.post(f"{TABLE}{code}/", {"asked": "1", "paper": "letter"})
    assert (answer.status_code, answer.headers["Content-Type"]) == (200, "application/pdf")
    assert answer.headers["Cache-Control"] == "private, no-store"
    assert Printing.objects.count() == 0


def test_cards_are_made_by_pressing_and_not_by_looking(run):
    page = run.get(f"{TABLE}invitation-cards/")
    assert ("document" in page.context, run.get(f"{TABLE}invitation-cards.pdf").status_code) == (False, 302)
    assert SignInLink.objects.count() == 0
    assert run.post(f"{TABLE}invitation-cards/", {"paper": "letter"}).status_code == 200
    assert SignInLink.objects.count() > 1


def test_who_is_named_goes_with_the_sheet_when_they_are_forgotten(
    cast, run, django_capture_on_commit_callbacks
):
    zeb = MembershipFactory(garden=cast.garden, user__name="Zeb Quarkson")
    notices = [
        cast.garden.notices.create(subject=subject, body=text)
        for subject, text in (("Keys", "Ask ZEB  Quarkson."), ("Water", "It is on."))
    ]
    keys, water = (printed(run, "gate-notice", notice=one.pk) for one in notices)
    assert (list(keys.people.all()), list(water.people.all())) == ([zeb.user], [])
    service.remove_member(membership=zeb, by=cast.coordinator)
    with django_capture_on_commit_callbacks(execute=True):
        service.forget_person(garden=cast.garden, person=zeb.user, by=cast.coordinator)
    assert list(Printing.objects.values_list("pk", flat=True)) == [water.pk]
    assert [default_storage.exists(one.file.name) for one in (keys, water)] == [False, True]


# --- everyone's in one file ---


@pytest.fixture
def many(cast: Cast, monkeypatch) -> list[User]:
    """Three more members with a plot and a plan; two of them are made at once."""
    monkeypatch.setattr(keeping, "TOGETHER", 2)
    monkeypatch.setattr(keeping, "ONE_BY_ONE", 2)
    crop, found = carrot(), []
    for number in range(3):
        held = AssignmentFactory(
            plot__garden=cast.garden, plot__label=f"C{number}", season=cast.assignment.season,
            holder=MembershipFactory(garden=cast.garden, user__name=f"Kim {number}").user,
        )  # fmt: skip
        planted(held.plot, crop)
        found.append(held.holder)
    return found


def everyones(client: Client, code: str = "calendar") -> Printing:
    return printed(client, code, member="everyone", year="2026")


@pytest.mark.parametrize("code", ["calendar", "your-year"])
def test_everyones_sheets_are_made_some_at_a_time_and_put_into_one(
    code, cast, run, many, as_user, django_capture_on_commit_callbacks
):
    page = run.get(f"{TABLE}{code}/", {"member": "everyone"})
    assert "Make everyone's sheets" in text_of(page)
    period = {"since": "2026-01-01", "until": "2026-12-31"} if code == "your-year" else {}
    row = printed(run, code, member="everyone", year="2026", both_sides="on", **period)
    count, address = len(row.members), f"{TABLE}before/{row.key}/"
    # A calendar is for who has a plot: the three, and who holds or shares A1.
    expected = 5 if code == "calendar" else cast.garden.memberships.count()
    assert (row.is_ready, count) == (False, expected)
    assert run.get(f"{TABLE}before/{row.key}.pdf").status_code == 404
    told = []
    for _step in range(20):
        shown = run.get(address)
        if "Open the PDF" in text_of(shown):
            break
        told.append(re.search(r"Made: (\d+) of (\d+)|are made", text_of(shown)).group())
        with django_capture_on_commit_callbacks(execute=True):
            assert run.post(f"{address}next/").status_code == 302
    assert told[:2] == [f"Made: 0 of {count}", f"Made: 2 of {count}"]
    assert len(told) == -(-count // 2) + 1

    row.refresh_from_db()
    content = body(run.get(f"{TABLE}before/{row.key}.pdf"))
    assert sha256(content).hexdigest() == row.sha256
    reader = PdfReader(BytesIO(content))
    found = [mark for mark in reader.outline if not isinstance(mark, list)]
    marks = " ".join(mark.title for mark in found)
    assert [one.name for one in many if one.name not in marks] == []
    begun = [reader.get_destination_page_number(mark) for mark in found]
    assert [at for at in begun if at % 2] == []  # everybody's sheets begin on a front
    assert (reader.metadata.title, reader.trailer["/Root"]["/Lang"]) == (
        f"{KINDS[code].name} for everyone",
        "en",
    )
    assert PrintingPart.objects.count() == 0
    assert {one.pk for one in many} <= set(row.people.values_list("pk", flat=True))


def test_the_page_of_a_step_drives_itself_and_goes_on_after_a_break(cast, run, many, as_user):
    row = everyones(run)
    step = run.post(f"{TABLE}before/{row.key}/next/", headers={"HX-Request": "true"})
    text = step.content.decode()
    assert ("<html" in text, 'hx-trigger="load"' in text, "Made: 2 of" in text) == (False, True, True)
    keeping.next_step(**_told(row, cast))  # another page, or the same after a restart
    assert row.members_made() == 4
    assert as_user(cast.member).post(f"{TABLE}before/{row.key}/next/").status_code == 404


def _told(row: Printing, cast: Cast) -> dict[str, object]:
    from schedules.forms.print_table import PrintForm

    kind = KINDS[row.kind]
    form = PrintForm.again(row.asked, kind=kind, garden=cast.garden, user=cast.coordinator)
    assert form.is_valid()
    return {"printing": row, "kind": kind, "asked": form.asked()}


def test_the_same_step_asked_for_twice_is_kept_once(cast, run, many):
    row = everyones(run)
    told = _told(row, cast)
    keeping._make_part(row, 0, told["kind"], told["asked"])
    keeping._make_part(row, 0, told["kind"], told["asked"])
    assert row.parts.count() == 1
    while not row.is_ready:
        keeping.next_step(**told)
    before = row.sha256
    keeping.next_step(**told)
    row.refresh_from_db()
    assert row.sha256 == before


def test_what_was_thrown_away_meanwhile_is_not_made(cast, run, many):
    row = everyones(run)
    told = _told(row, cast)
    Printing.objects.all().delete()
    with pytest.raises(Printing.DoesNotExist):
        keeping.next_step(**told)
    assert run.post(f"{TABLE}before/{row.key}/next/").status_code == 404


def test_a_member_who_left_meanwhile_is_left_out(cast, run, many):
    row = everyones(run)
    cast.garden.memberships.filter(user=many[0]).delete()
    told = _told(row, cast)
    while not row.is_ready:
        keeping.next_step(**told)
    with row.file.open("rb") as file:
        text = words(file.read())
    assert ("Kim 0" in text, "Kim 1" in text) == (False, True)


@pytest.mark.parametrize("members", [7, 10])
def test_a_step_of_calendars_costs_the_same_for_more_members(
    cast, run, many, members, monkeypatch, django_assert_num_queries
):
    monkeypatch.setattr(keeping, "TOGETHER", members)
    row = everyones(run)
    told = _told(row, cast)
    with django_assert_num_queries(24):
        keeping.next_step(**told)


def test_no_part_of_a_sheet_is_left_when_keeping_it_fails(cast, run, monkeypatch):
    saved: list[str] = []
    real = default_storage.save
    monkeypatch.setattr(
        default_storage, "save", lambda name, content: saved.append(name) or real(name, content)
    )
    monkeypatch.setattr(Printing, "save", lambda *args, **rest: (_ for _ in ()).throw(RuntimeError("full")))
    with pytest.raises(RuntimeError, match="full"):
        run.post(f"{TABLE}dates/", {"asked": "1", "year": "2026", "paper": "letter"})
    assert [Path(name).suffix for name in saved] == [".pdf"]
    assert not default_storage.exists(saved[0])


def no_room(monkeypatch) -> None:
    def full(*_args: object) -> str:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(default_storage, "save", full)


def test_without_room_a_sheet_is_printed_all_the_same_and_said_not_to_be_kept(run, monkeypatch):
    no_room(monkeypatch)
    answer = run.post(f"{TABLE}dates/", {"asked": "1", "year": "2026", "paper": "letter"})
    assert (answer.status_code, answer.headers["Content-Type"]) == (200, "application/pdf")
    assert Printing.objects.count() == 0
    assert "is not kept here" in text_of(run.get(TABLE))


@pytest.mark.parametrize("headers", [{}, {"HX-Request": "true"}])
def test_without_room_everyones_wait_where_they_are(cast, run, many, monkeypatch, headers):
    row = everyones(run)
    keeping.next_step(**_told(row, cast))
    with monkeypatch.context() as meanwhile:
        no_room(meanwhile)
        page = run.post(f"{TABLE}before/{row.key}/next/", headers=headers).content.decode()
    assert ("no room left" in page, "Made: 2 of" in page, 'hx-trigger="load"' in page) == (True, True, False)
    keeping.next_step(**_told(row, cast))
    assert row.members_made() == 4


def test_who_comes_second_to_put_them_together_finds_them_done(cast, run, many, monkeypatch):
    row = everyones(run)
    told = _told(row, cast)
    while row.parts.count() < row.steps:
        keeping.next_step(**told)
    slower, listed = Printing.objects.get(pk=row.pk), list(row.parts.all())
    keeping.next_step(**told)
    for part in listed:
        default_storage.delete(part.file.name)
    monkeypatch.setattr(type(slower), "parts", SimpleNamespace(all=lambda: listed))
    keeping._put_together(slower, told["kind"], told["asked"])
    assert (slower.is_ready, slower.sha256) == (True, row.sha256)


def test_without_anybody_who_has_a_plot_there_is_nothing_to_make_for_everyone(cast, run):
    cast.garden.plots.update(retired_on=date(2020, 1, 1))
    page = run.get(f"{TABLE}calendar/", {"member": "everyone"})
    assert page.context["form"].errors["member"] == ["Nobody has a plot today, so there is no sheet to make."]
    assert page.status_code == 422
