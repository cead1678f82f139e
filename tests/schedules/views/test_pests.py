"""Pests and damage: guidance, sightings, a private word, and the interval of a label."""

from __future__ import annotations

from datetime import date
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError

from plots.models import Change, Notice
from schedules.models import CalendarFeed, Guidance, Sighting, WorkLog
from schedules.scouting import Seen, Used
from schedules.service import GardenDates, plot_season
from schedules.service.logs import change_log, keep_logs, remove_log, restore_log
from schedules.service.scouting import attach
from schedules.service.sheet import calendar_rows
from tests.conftest import Cast
from tests.factories import AssignmentFactory, MembershipFactory, PlotFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato

PESTS = "/g/linden-row/pests/"
ADVICE = {
    "thing": "Aphids",
    "tolerate": "A few on tips do no harm.",
    "by_hand": "Rinse them off with water.",
    "ask": "Ask the coordinator first.",
    "reach_m": "5 m",
}


@pytest.fixture
def garden(cast: Cast, time_machine) -> Cast:
    time_machine.move_to("2026-07-08T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    cast.garden.plots.filter(pk=cast.plot.pk).update(left_m=0, top_m=0)
    return cast


def unfolded(response) -> str:
    return response.content.decode().replace("\r\n ", "").replace("\\,", ",")


def logged(cast: Cast, work: str, day: date = date(2026, 7, 1), **told: object) -> WorkLog:
    at = {"garden": cast.garden, "plots": [cast.plot], "person": cast.holder, "by": cast.holder}
    return keep_logs(work=work, day=day, key=uuid4(), **{**at, **told}).rows[0]


def test_guidance_is_written_mildest_first_and_read_by_every_member(garden: Cast, as_user) -> None:
    deputy, member = as_user(garden.deputy), as_user(garden.member)
    assert "has not written any guidance yet" in member.get(PESTS).content.decode()
    refused = deputy.post(f"{PESTS}new/", {**ADVICE, "tolerate": "", "reach_m": "far"})
    assert refused.status_code == 422
    assert "Rinse them off with water." in refused.content.decode()
    assert "“far” cannot be read." in refused.content.decode()
    assert deputy.post(f"{PESTS}new/", ADVICE).status_code == 302
    thing = Guidance.objects.get()
    assert thing.reach_m == 5
    shown = member.get(PESTS).content.decode()
    assert shown.index("A few on tips") < shown.index("Rinse them off") < shown.index("Ask the coordinator")
    assert "The label is the law" in shown
    assert f"{PESTS}{thing.pk}/" not in shown
    double = deputy.post(f"{PESTS}new/", {**ADVICE, "thing": " APHIDS"})
    assert "This garden already has guidance about it." in double.content.decode()

    edit = f"{PESTS}{thing.pk}/"
    assert deputy.post(edit, {**ADVICE, "prevent": "Leave room."}).status_code == 302
    assert "The guidance was changed" in deputy.get(edit).content.decode()
    deputy.post(f"{edit}remove/")
    deputy.post(f"{edit}remove/")
    assert "has not written any guidance yet" in member.get(PESTS).content.decode()
    assert deputy.post(f"{PESTS}new/", ADVICE).status_code == 302
    again = deputy.post(f"{edit}restore/", follow=True)
    assert "This garden already has guidance about it." in again.content.decode()
    Guidance.objects.exclude(pk=thing.pk).delete()
    deputy.post(f"{edit}restore/")
    assert "Leave room." in member.get(PESTS).content.decode()
    assert Change.objects.filter(what="guidance-removed").count() == 1


def test_a_word_goes_to_plots_near_by_and_of_the_same_family_and_names_no_plot(
    garden: Cast, as_user, mailoutbox, settings
) -> None:
    settings.EMAIL_FROM = "garden@example.org"
    Guidance.objects.create(garden=garden.garden, thing="Aphids", tolerate="Mostly.", reach_m=5)
    planting = planted(garden.plot, carrot())
    seen = logged(garden, "scout", planting=planting, seen=Seen("aphids on carrots", "leaves", "some"))

    def neighbour(name: str, **place: float) -> AssignmentFactory:
        plot = PlotFactory(garden=garden.garden, **place)
        person = MembershipFactory(garden=garden.garden, user__name=name).user
        return AssignmentFactory(plot=plot, holder=person, season=garden.assignment.season)

    near = neighbour("Nadia Near", left_m=5, top_m=0)
    kin = neighbour("Kim Kin", left_m=90, top_m=0)
    neighbour("Farid Far", left_m=50, top_m=0)
    planted(kin.plot, carrot(slug="parsnip", name="Parsnip"))
    near.holder.email = "nadia@example.org"
    near.holder.save()

    deputy = as_user(garden.deputy)
    page = f"{PESTS}seen/{seen.sighting.pk}/"
    assert "Mostly." in deputy.get(page).content.decode()
    form = deputy.get(f"{page}word/").content.decode()
    assert "Farid Far" not in form
    for person, why in [
        ("Nadia Near", "6.6"),
        ("Kim Kin", "grows Apiaceae, too"),
        ("Hollis", "where it was seen"),
    ]:
        assert person in form
        assert why in form
    assert "in the garden these days: aphids on carrots." in form

    people = [garden.holder.pk, near.holder.pk]
    word = {"subject": "Look", "body": "Please look; it came from plot A1.", "people": people}
    refused = deputy.post(f"{page}word/", word)
    assert refused.status_code == 422
    assert "The text names A1." in refused.content.decode()
    assert "it came from plot A1" in refused.content.decode()
    assert deputy.post(f"{page}word/", {**word, "people": []}).status_code == 422
    assert Notice.objects.count() == 0
    assert deputy.post(f"{page}word/", {**word, "body": "Please look."}).status_code == 302
    assert [letter.to for letter in mailoutbox] == [["nadia@example.org"]]
    shown = deputy.get(page).content.decode()
    assert "Nadia Near" in shown
    assert "neither email nor telephone known" in shown

    assert deputy.post(f"{page}sure/", {"confirmed_by": "x" * 200}).status_code == 422
    deputy.post(f"{page}sure/", {"confirmed_by": "County plant clinic"})
    assert "County plant clinic" in deputy.get(page).content.decode()


@pytest.mark.parametrize("count", [1, 3])
def test_sightings_are_listed_filtered_and_exported(
    garden: Cast, as_user, count: int, django_assert_num_queries
) -> None:
    for number in range(count):
        at = {"plots": [PlotFactory(garden=garden.garden)], "by": garden.coordinator}
        logged(garden, "scout", seen=Seen(f"=holes {number}", "leaves", "much"), note="+1", **at)
    logged(garden, "treat", plots=[garden.plot], used=Used("=Spray", 7, "Cora"))
    client = as_user(garden.coordinator)
    with django_assert_num_queries(4):
        shown = client.get(f"{PESTS}seen/?much=much&word=silent&when=lately&sure=unsure").content.decode()
    assert shown.count("=holes") == count
    assert "=holes" not in client.get(f"{PESTS}seen/?much=trace").content.decode()
    table = client.get(f"{PESTS}seen/?as=csv").content.decode()
    assert table.count("'=holes") == count
    with django_assert_num_queries(4):
        used = client.get(f"{PESTS}used/").content.decode()
    assert "July 8, 2026" in used
    assert "'=Spray" in client.get(f"{PESTS}used/?as=csv").content.decode()


def test_a_label_holds_picking_back_until_its_days_have_passed(garden: Cast, as_user, time_machine) -> None:
    crop = carrot()
    sprayed, other = planted(garden.plot, crop), planted(garden.plot, tomato())
    treat = logged(garden, "treat", date(2026, 7, 1), planting=sprayed, used=Used("Label name", 7))
    with pytest.raises(ValidationError) as refused:
        logged(garden, "harvest", date(2026, 7, 7), planting=sprayed)
    assert refused.value.message_dict["day"] == [
        "Not before July 8: “Label name” was used on July 1, and its label asks for 7 days before picking."
    ]
    with pytest.raises(ValidationError):
        logged(garden, "harvest", date(2026, 7, 1), crop=crop)
    logged(garden, "harvest", date(2026, 6, 30), planting=sprayed)
    logged(garden, "harvest", date(2026, 7, 7), planting=other)
    picked = logged(garden, "harvest", date(2026, 7, 8), planting=sprayed)
    remove_log(log=picked, by=garden.holder)

    dates = GardenDates.of(garden.garden)
    rows = dates.entries([garden.plot], [2026])
    held = [(row.planting, row.operation, row.not_before.until) for row in rows if row.not_before]
    assert held == [(sprayed.pk, "harvest", date(2026, 7, 8))]
    short, said = "not before July 8: interval on the label", "Not before July 8: “Label name”"
    holder = as_user(garden.holder)
    pages = ["week/", f"plots/{garden.plot.pk}/plan/?year=2026"]
    assert [short in holder.get(f"/g/linden-row/{page}").content.decode() for page in pages] == [True, True]
    assert short in as_user(garden.coordinator).get("/g/linden-row/week/").content.decode()
    planting_page = f"/g/linden-row/plantings/{sprayed.pk}/"
    assert said not in holder.get(planting_page).content.decode()  # it is the 8th
    time_machine.move_to("2026-07-07T18:00Z", tick=False)
    assert said in holder.get(planting_page).content.decode()
    feed = CalendarFeed.objects.create(user=garden.holder, garden=garden.garden)
    assert said in unfolded(holder.get(f"/feed/{feed.token}.ics"))
    season = plot_season(garden.plot, 2026, date(2026, 7, 8))
    assert [row.crop for row in calendar_rows(season.calendar, "us") if said in " ".join(row.reasons)] == [
        "Carrot"
    ]
    remove_log(log=treat, by=garden.holder)
    assert not any(row.not_before for row in dates.entries([garden.plot], [2026]))
    logged(garden, "harvest", date(2026, 7, 2), planting=sprayed)
    restore_log(log=treat, by=garden.holder)
    with pytest.raises(ValidationError):
        logged(garden, "harvest", date(2026, 7, 3), planting=sprayed)


def test_a_product_logged_late_says_what_was_picked_too_early(garden: Cast, as_user) -> None:
    sprayed, other = planted(garden.plot, carrot()), planted(garden.plot, tomato())
    days = [date(2026, 6, 30), date(2026, 7, 2), date(2026, 7, 5)]
    picked = {day: logged(garden, "harvest", day, planting=sprayed) for day in days}
    logged(garden, "harvest", date(2026, 7, 2), planting=other)
    late = logged(garden, "treat", date(2026, 7, 1), planting=sprayed, used=Used("Label name", 4))
    holder, warning = as_user(garden.holder), "By the logs it was picked before that:"
    page = holder.get(late.get_absolute_url()).content.decode().partition("</main>")[0]
    assert warning in page
    links = {day: log.get_absolute_url() in page for day, log in picked.items()}
    assert links == dict(zip(days, [False, True, False], strict=True))
    assert page.count('">July 2, 2026</a>') == 1
    diary = holder.get(f"/g/linden-row/plots/{garden.plot.pk}/diary/").content.decode()
    assert "Used a product on Carrot" in diary
    assert "Label name: its label asks for 4 days before picking" in diary
    change_log(log=picked[days[1]], by=garden.holder, note="A handful.")
    with pytest.raises(ValidationError):
        change_log(log=picked[days[1]], by=garden.holder, day=date(2026, 7, 3))
    remove_log(log=picked[days[1]], by=garden.holder)
    assert warning not in holder.get(late.get_absolute_url()).content.decode()


def test_what_hangs_on_a_log_follows_what_it_tells(garden: Cast) -> None:
    log = logged(garden, "scout", seen=Seen("Aphids"))
    attach(log=log, seen=Seen("Ants", "stems", "trace"))
    assert [(one.seen, one.seen_on) for one in Sighting.objects.all()] == [("Ants", "stems")]
    attach(log=log)
    assert not Sighting.objects.exists()


def test_the_form_of_a_log_shows_guidance_first_and_asks_for_the_label(garden: Cast, as_user) -> None:
    Guidance.objects.create(garden=garden.garden, thing="Aphids", tolerate="Leave a few.")
    holder, form = as_user(garden.holder), "/g/linden-row/log/"
    page = holder.get(f"{form}?work=treat&plot={garden.plot.pk}").content.decode()
    assert page.count("Leave a few.") == 2
    assert page.rindex("Leave a few.") < page.index('name="product"')
    assert page.count('<option value="Aphids">') == 1

    told = {"work": "treat", "plots": [garden.plot.pk], "day": "2026-07-08", "product": "Label name"}
    refused = holder.post(form, {**told, "key": str(uuid4())})
    assert refused.status_code == 422
    assert "How many days does the label ask for" in refused.content.decode()
    assert "Read the label first" in refused.content.decode()
    assert 'value="Label name"' in refused.content.decode()
    kept = holder.post(form, {**told, "key": str(uuid4()), "label_days": "7", "label_read": "on"})
    assert kept.status_code == 302
    log = WorkLog.objects.get()
    assert log.treatment.label_days == 7
    assert "Do not pick before July 15, 2026." in holder.get(log.get_absolute_url()).content.decode()
    silent = holder.post(
        form, {"work": "scout", "plots": [garden.plot.pk], "day": "2026-07-08", "key": str(uuid4())}
    )
    assert "What did you see?" in silent.content.decode()
