"""Values for what the path of each address asks for; who may go there stands in `plots.doors`."""

from datetime import date

from django.utils import timezone

from crops.models import Crop, Planting, Variety
from plots.models import AgreementText, Change, Membership, RenewalRound, Season
from plots.service import save_changes
from schedules.forms.print_table import PrintForm
from schedules.models import CalendarFeed, GardenReading, StationRecord
from schedules.service.print_table.keeping import keep
from schedules.service.print_table.kinds import KINDS
from tests.doors import photo_addresses, scouting_addresses, waiting_addresses
from tests.factories import UserFactory


def arguments(name: str, cast) -> dict[str, object]:
    """What the path of `name` asks for, made in the first garden of the cast."""
    app, name = name.split(":")
    values = _WITHOUT_GARDEN.get(name)
    if values is not None:
        return values(cast)
    maker = _MAKERS[app].get(name)
    return {"slug": cast.garden.slug, **(maker(cast) if maker else {})}


def _reading(cast) -> dict[str, object]:
    return {"pk": GardenReading.objects.create(garden=cast.garden, day=date(2024, 5, 1), tmin_c=1.0).pk}


def _moved(cast) -> dict[str, object]:
    change = Change.objects.get(pk=_change(cast)["pk"])
    kept = cast.garden.dates_moved.create(change=change)
    kept.rows.create(planting_id=_planting(cast)["pk"], operation="sow", succession=1, **_BEFORE)
    return {"pk": kept.pk}


_BEFORE = {"old_earliest": date(2024, 4, 1), "old_best": date(2024, 4, 9), "old_latest": date(2024, 5, 1)}


def _plot(cast) -> dict[str, object]:
    return {"pk": cast.plot.pk}


def _round(cast) -> dict[str, object]:
    season = Season.objects.create(
        garden=cast.garden, name="2025", starts_on=date(2025, 1, 1), ends_on=date(2025, 12, 31)
    )
    opened = {"opened_on": date(2024, 10, 1), "answer_by": date(2024, 11, 1)}
    return {"pk": RenewalRound.objects.create(season=season, **opened).pk}


def _renewal(cast) -> dict[str, object]:
    where = _round(cast)
    return {**where, "renewal_pk": cast.assignment.renewals.create(round_id=where["pk"]).pk}


def _due(cast) -> dict[str, object]:
    owed = {"what": "key", "amount": 5, "due_on": date(2024, 5, 1)}
    due = cast.garden.dues.create(season=cast.assignment.season, person=cast.holder, **owed)
    return {"pk": due.pk}


def _version(cast) -> dict[str, object]:
    version = cast.garden.agreements.create(number=1)
    version.texts.create(language="en", title="Agreement", body="We water by hand.")
    return {"pk": version.pk}


def _signature(cast) -> dict[str, object]:
    version = cast.garden.agreements.get(pk=_version(cast)["pk"])
    kept = {"how": "paper", "name": "Hollis", "signed_on": date(2024, 5, 1)}
    signature = version.signatures.create(text=version.texts.get(), person=cast.holder, **kept)
    return {"pk": signature.pk}


def _feature(cast) -> dict[str, object]:
    box = {"left_m": 0, "top_m": 0, "width_m": 1, "length_m": 9}
    return {"pk": cast.garden.features.create(kind="path", **box).pk}


def _member(cast) -> dict[str, object]:
    return {"pk": Membership.objects.get(user=cast.member, garden=cast.garden).pk}


def _change(cast) -> dict[str, object]:
    rules = cast.garden.rules
    rules.hours_owed = 6
    return {"pk": save_changes(garden=cast.garden, by=cast.coordinator, row=rules, what="rules-changed").pk}


def _own_crop(cast) -> Crop:
    return Crop.objects.create(
        garden=cast.garden, slug="own-chard", name="Chard", hardiness="hardy", method="direct"
    )


def _crop(cast) -> dict[str, object]:
    return {"crop_slug": _own_crop(cast).slug}


def _variety(cast) -> dict[str, object]:
    crop = _own_crop(cast)
    return {
        "crop_slug": crop.slug,
        "pk": Variety.objects.create(garden=cast.garden, crop=crop, name="Tall").pk,
    }


def _planting(cast, *, removed_at=None) -> dict[str, object]:
    planting = Planting.objects.create(
        plot=cast.plot, crop=_own_crop(cast), year=2024, start="sow", removed_at=removed_at
    )
    return {"pk": planting.pk}


def _removed(cast) -> dict[str, object]:
    return _planting(cast, removed_at=timezone.now())


def _workshop(cast) -> dict[str, object]:
    """Still to come: what was, only those see who run workshops."""
    return {"pk": cast.garden.workshops.create(title="Seeds", on=cast.garden.today()).pk}


def _feed(cast) -> dict[str, object]:
    return {"token": CalendarFeed.objects.create(user=cast.holder, garden=cast.garden).token}


def _record(cast) -> dict[str, object]:
    record = StationRecord.objects.create(
        garden=cast.garden,
        name="North field",
        file_format="plain",
        first_day=date(2020, 1, 1),
        last_day=date(2020, 12, 31),
    )
    return {"pk": record.pk}


def _hose(cast) -> dict[str, object]:
    flow = {"name": "North tap", "litres": 10, "seconds": 40, "measured_on": date(2024, 5, 1)}
    return {"kind": "hose", "pk": cast.garden.hose_flows.create(**flow).pk}


def _stand_in(cast) -> dict[str, object]:
    days = {"first_day": date(2024, 6, 1), "last_day": date(2024, 6, 9)}
    return {"pk": cast.assignment.stand_ins.create(person=cast.coordinator, **days).pk}


def _left(cast) -> dict[str, object]:
    person = UserFactory(name="Lena Left")
    Change.objects.create(
        garden=cast.garden, about_model="plots.user", about_pk=person.pk, what="member-left", about_name="L"
    )
    return {"pk": person.pk}


def _duty(cast) -> dict[str, object]:
    return {"pk": cast.garden.duties.create(name="Compost").pk}


def _whereabout(cast) -> dict[str, object]:
    return {"pk": cast.garden.whereabouts.create(thing="First aid", place="Shed").pk}


def _printing(cast) -> dict[str, object]:
    kind, garden = KINDS["dates"], cast.garden
    form = PrintForm({}, kind=kind, garden=garden, user=cast.coordinator)
    assert form.is_valid(), form.errors
    told = {"kind": kind, "asked": form.asked(), "by": cast.coordinator, "filled_in": form.kept}
    return {"key": keep(**told).key}


def _nothing(cast) -> dict[str, object]:
    return {}


def _workday(cast) -> dict[str, object]:
    return {"pk": cast.garden.workdays.create(name="Paths", day=date(2024, 5, 4)).pk}


def _task(cast) -> dict[str, object]:
    workday = _workday(cast)["pk"]
    return {"pk": cast.garden.work_tasks.create(workday_id=workday, name="Edges").pk}


def _make_up_job(cast) -> dict[str, object]:
    return {"pk": cast.garden.work_tasks.create(name="Pots", minutes=60).pk}


def _hours_done(cast) -> dict[str, object]:
    done = cast.garden.hours_done.create(person=cast.holder, day=date(2024, 5, 4), minutes=60)
    return {"pk": done.pk}


def _date(cast) -> dict[str, object]:
    return {"pk": cast.garden.dates.create(kind="water_on", day=date(2024, 4, 1)).pk}


def _care_round(cast) -> dict[str, object]:
    return {"pk": cast.garden.care_rounds.create(day=date(2024, 6, 1)).pk}


def _matter(cast) -> dict[str, object]:
    return {"pk": cast.assignment.matters.create(opened_on=date(2024, 6, 1)).pk}


def _matter_step(cast) -> dict[str, object]:
    matter = cast.assignment.matters.create(opened_on=date(2024, 6, 1))
    return {"pk": matter.pk, "step_pk": matter.steps.create(kind="contact", day=date(2024, 6, 2)).pk}


def _notice(cast) -> dict[str, object]:
    return {"pk": cast.garden.notices.create(subject="Water", body="It is on.").pk}


def _delivery(cast) -> dict[str, object]:
    notice = cast.garden.notices.create(subject="Water", body="It is on.")
    row = notice.deliveries.create(person=cast.member, way="phone")
    return {"pk": notice.pk, "delivery_pk": row.pk}


_WITHOUT_GARDEN = {
    **waiting_addresses.WITHOUT_GARDEN,
    **dict.fromkeys(
        (
            "home",
            "link_ask",
            "own_data",
            "sign_in",
            "sign_out",
            "first_visit",
            "account",
            "who",
            "phone",
            "worker",
            "manifest",
            "live",
            "ready",
            "garden_new",
        ),
        _nothing,
    ),
    "link": lambda cast: {"token": "no-such-link"},
    "feed_ics": _feed,
    "at_plot": lambda cast: {"code": cast.plot.stake_code},
}
_MAKERS = {
    "plots": {
        **waiting_addresses.MAKERS,
        **photo_addresses.FINDINGS,
        "season_edit": lambda cast: {"pk": cast.assignment.season_id},
        "change_undo": _change,
        "rules_edit": lambda cast: {"block": "care"},
        **dict.fromkeys(
            ("plot", "plot_edit", "plot_retire", "plot_restore", "plot_holder", "stake_renew"), _plot
        ),
        **dict.fromkeys(("feature_edit", "feature_remove"), _feature),
        **dict.fromkeys(("round", "round_remind", "round_close", "proposals"), _round),
        "round_answer": lambda cast: {**_round(cast), "assignment_pk": cast.assignment.pk},
        **dict.fromkeys(("renewal_undo", "renewal_move"), _renewal),
        **dict.fromkeys(
            ("hand_over", "reopen"),
            lambda cast: {"pk": cast.plot.pk, "assignment_pk": cast.assignment.pk},
        ),
        "due": _due,
        "due_part": lambda cast: {"pk": cast.assignment.pk},
        "care_round": _care_round,
        "care_stop": lambda cast: {**_care_round(cast), "plot_pk": cast.plot.pk},
        "matter": _matter,
        "matter_step": lambda cast: {**_matter(cast), "kind": "notice"},
        "matter_step_back": _matter_step,
        **dict.fromkeys(("pause_new", "pause_end"), lambda cast: {"assignment_pk": cast.assignment.pk}),
        **dict.fromkeys(("notice", "notice_edit", "notice_give"), _notice),
        "delivery_mark": _delivery,
        "signature_back": _signature,
        **dict.fromkeys(("agreement_version", "agreement_in_force", "agreement_text_new"), _version),
        "agreement_text": lambda cast: {**_version(cast), "text_pk": AgreementText.objects.get().pk},
        "stand_in_end": _stand_in,
        "plot_free": lambda cast: {"pk": cast.plot.pk, "assignment_pk": cast.assignment.pk},
        **dict.fromkeys(("member", "member_edit", "paper_consent", "member_link", "member_leave"), _member),
        "person_forget": _left,
        "member_link_post": _member,
        "co_gardeners": lambda cast: {"pk": cast.plot.pk, "assignment_pk": cast.assignment.pk},
        **dict.fromkeys(("duty_edit", "duty_remove"), _duty),
        **dict.fromkeys(("whereabout_edit", "whereabout_remove"), _whereabout),
        **dict.fromkeys(
            ("workday", "workday_people", "workday_edit", "workday_hold", "workday_sheet"), _workday
        ),
        **dict.fromkeys(("task_join", "task_leave"), _task),
        **dict.fromkeys(("make_up_job_edit", "make_up_job_close", "make_up_job_done"), _make_up_job),
        "hours_person": _member,
        "hours_excuse": lambda cast: {**_member(cast), "season_pk": cast.assignment.season_id},
        **dict.fromkeys(("hours_remove", "hours_restore"), _hours_done),
        **dict.fromkeys(("date_edit", "date_remove", "date_restore"), _date),
        "dates_copy": lambda cast: {"year": 2025},
    },
    "crops": {
        **dict.fromkeys(("crop", "crop_edit", "crop_remove", "variety_new"), _crop),
        **dict.fromkeys(("variety", "variety_edit", "variety_remove"), _variety),
    },
    "schedules": {
        **scouting_addresses.MAKERS,
        **photo_addresses.LOGS,
        **dict.fromkeys(
            ("log", "log_edit", "log_remove", "log_restore"),
            lambda cast: {"pk": photo_addresses.log(cast).pk},
        ),
        **dict.fromkeys(("measure_remove", "measure_restore"), _hose),
        **dict.fromkeys(
            (
                "workshop",
                "workshop_edit",
                "workshop_pack",
                "workshop_came",
                "workshop_remove",
                "workshop_restore",
            ),
            _workshop,
        ),
        "invitation_card": _member,
        "print_kind": lambda cast: {"code": "dates"},
        "print_file": lambda cast: {"code": "dates", "form": "pdf"},
        **dict.fromkeys(("printing", "printing_pdf", "printing_next", "printing_remove"), _printing),
        "frost_remove": _record,
        "reading_remove": _reading,
        "dates_moved": _moved,
        "taught_set": lambda cast: {"pk": _own_crop(cast).pk},
        "when_crop": lambda cast: {"crop": _own_crop(cast).slug},
        "chance": lambda cast: {"crop": _own_crop(cast).slug},
        **dict.fromkeys(("plan", "planting_add", "plot_diary", "glance"), _plot),
        "planting_new": lambda cast: {"pk": cast.plot.pk, "crop": _own_crop(cast).slug},
        **dict.fromkeys(("planting", "planting_edit", "planting_remove"), _planting),
        "planting_restore": _removed,
    },
}
