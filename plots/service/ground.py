"""Gardens: founding them."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.text import slugify
from django.utils.translation import gettext as _

from plots.customs import customs_of
from plots.models import Garden, Installation, Membership, Role, Season, SetUp, User
from plots.service.history import record
from plots.service.people import free_sign_in_name
from plots.spelling import first_free


def free_slug(name: str) -> str:
    """The garden's short name in addresses, with a number behind it where it is taken."""
    stem = slugify(name)[:50] or "garden"
    taken = set(Garden.objects.filter(slug__startswith=stem).values_list("slug", flat=True))
    return first_free(stem, taken, "-")


@transaction.atomic
def make_garden(*, garden: Garden, coordinator: User) -> Garden:
    """A new garden with its coordinator, a season for the current year, and all else to be set up."""
    garden.slug = free_slug(garden.name)
    garden.units, garden.paper = customs_of(garden.time_zone)
    try:
        with transaction.atomic():
            garden.save()
    except IntegrityError:
        raise ValidationError(_("Another garden has just taken this name. Please send it again.")) from None
    Membership.objects.create(garden=garden, user=coordinator, role=Role.COORDINATOR)
    year = garden.today().year
    Season.objects.create(
        garden=garden, name=str(year), starts_on=date(year, 1, 1), ends_on=date(year, 12, 31)
    )
    SetUp.objects.create(garden=garden)
    record(garden=garden, by=coordinator, about=garden, what="garden-made")
    return garden


def is_founded() -> bool:
    return User.objects.exists()


def found_installation(*, garden: Garden, founder: User) -> Garden:
    """The first garden and the first person, who may make more gardens; only one visitor is the first."""
    refusal = ValidationError(_("Somebody else has just set this installation up."))
    try:
        with transaction.atomic():
            if is_founded():
                raise refusal
            Installation.objects.create()
            founder.sign_in_name = founder.sign_in_name or free_sign_in_name(founder.name)
            founder.is_staff = True
            founder.set_unusable_password()
            founder.save()
            return make_garden(garden=garden, coordinator=founder)
    except IntegrityError:
        raise refusal from None
