"""Who may GET and who may POST each address, and values for what its path asks for."""

from datetime import date

from django.utils import timezone

from crops.models import Crop, Planting, Variety
from plots.models import Membership
from schedules.models import CalendarFeed, StationRecord

ROWS = {
    "plots:home": ("everybody", "no such method for anybody"),
    "plots:sign_in": ("everybody", "everybody"),
    "plots:link": ("everybody", "everybody"),
    "plots:sign_out": ("no such method for anybody", "everybody"),
    "plots:first_visit": ("nobody at all", "nobody at all"),
    "plots:account": ("signed in", "signed in"),
    "plots:live": ("everybody", "no such method for anybody"),
    "plots:ready": ("everybody", "no such method for anybody"),
    "plots:garden_new": ("keeper", "keeper"),
    "plots:garden": ("garden", "no such method"),
    "plots:garden_settings": ("run", "run"),
    "plots:season_new": ("run", "run"),
    "plots:season_edit": ("run", "run"),
    "plots:plots": ("garden", "no such method"),
    "plots:plot_new": ("run", "run"),
    "plots:plot": ("plot", "no such method"),
    "plots:plot_edit": ("run", "run"),
    "plots:plot_holder": ("run", "run"),
    "plots:plot_free": ("no such method", "run"),
    "plots:members": ("garden", "no such method"),
    "plots:member_new": ("run", "run"),
    "plots:member_known": ("no such method", "run"),
    "plots:member": ("run", "run"),
    "plots:member_edit": ("run", "run"),
    "plots:member_link": ("no such method", "run"),
    "plots:member_leave": ("no such method", "run"),
    "crops:crops": ("garden", "no such method"),
    "crops:crop_new": ("run", "run"),
    "crops:crop": ("garden", "no such method"),
    "crops:crop_edit": ("run", "run"),
    "crops:crop_remove": ("no such method", "run"),
    "crops:variety_new": ("run", "run"),
    "crops:variety": ("garden", "no such method"),
    "crops:variety_edit": ("run", "run"),
    "crops:variety_remove": ("no such method", "run"),
    "schedules:week": ("garden", "no such method"),
    "schedules:when": ("garden", "no such method"),
    "schedules:when_crop": ("garden", "no such method"),
    "schedules:plan": ("plot", "no such method"),
    "schedules:planting_add": ("plan", "no such method"),
    "schedules:planting_new": ("plan", "plan"),
    "schedules:calendar_pdf": ("plot", "no such method"),
    "schedules:planting": ("plot", "no such method"),
    "schedules:planting_edit": ("plan", "plan"),
    "schedules:planting_remove": ("no such method", "plan"),
    "schedules:planting_restore": ("no such method", "plan"),
    "schedules:feed": ("garden", "no such method"),
    "schedules:feed_make": ("no such method", "garden"),
    "schedules:feed_revoke": ("no such method", "garden"),
    "schedules:feed_ics": ("everybody", "no such method for anybody"),
    "schedules:frost": ("garden", "no such method"),
    "schedules:frost_source": ("garden", "no such method"),
    "schedules:frost_import": ("run", "run"),
    "schedules:frost_table": ("run", "run"),
    "schedules:frost_mean": ("run", "run"),
    "schedules:frost_offset": ("run", "run"),
    "schedules:frost_use": ("no such method", "run"),
    "schedules:frost_remove": ("no such method", "run"),
}


def arguments(name: str, cast) -> dict[str, object]:
    """What the path of `name` asks for, made in the first garden of the cast."""
    app, name = name.split(":")
    values = _WITHOUT_GARDEN.get(name)
    if values is not None:
        return values(cast)
    maker = _MAKERS[app].get(name)
    return {"slug": cast.garden.slug, **(maker(cast) if maker else {})}


def _plot(cast) -> dict[str, object]:
    return {"pk": cast.plot.pk}


def _member(cast) -> dict[str, object]:
    return {"pk": Membership.objects.get(user=cast.member, garden=cast.garden).pk}


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


def _nothing(cast) -> dict[str, object]:
    return {}


_WITHOUT_GARDEN = {
    **dict.fromkeys(
        ("home", "sign_in", "sign_out", "first_visit", "account", "live", "ready", "garden_new"), _nothing
    ),
    "link": lambda cast: {"token": "no-such-link"},
    "feed_ics": _feed,
}
_MAKERS = {
    "plots": {
        "season_edit": lambda cast: {"pk": cast.assignment.season_id},
        **dict.fromkeys(("plot", "plot_edit", "plot_holder"), _plot),
        "plot_free": lambda cast: {"pk": cast.plot.pk, "assignment_pk": cast.assignment.pk},
        **dict.fromkeys(("member", "member_edit", "member_link", "member_leave"), _member),
    },
    "crops": {
        **dict.fromkeys(("crop", "crop_edit", "crop_remove", "variety_new"), _crop),
        **dict.fromkeys(("variety", "variety_edit", "variety_remove"), _variety),
    },
    "schedules": {
        "frost_remove": _record,
        "when_crop": lambda cast: {"crop": _own_crop(cast).slug},
        **dict.fromkeys(("plan", "planting_add", "calendar_pdf"), _plot),
        "planting_new": lambda cast: {"pk": cast.plot.pk, "crop": _own_crop(cast).slug},
        **dict.fromkeys(("planting", "planting_edit", "planting_remove"), _planting),
        "planting_restore": _removed,
    },
}
