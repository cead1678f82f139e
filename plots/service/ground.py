"""Gardens and plots: founding, and who holds what."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.text import slugify
from django.utils.translation import gettext as _

from plots.models import Assignment, Garden, Installation, Membership, Plot, Role, Season, User
from plots.service.people import free_sign_in_name
from plots.spelling import first_free


def free_slug(name: str) -> str:
    """The garden's short name in addresses, with a number behind it where it is taken."""
    stem = slugify(name)[:50] or "garden"
    taken = set(Garden.objects.filter(slug__startswith=stem).values_list("slug", flat=True))
    return first_free(stem, taken, "-")


@transaction.atomic
def make_garden(*, garden: Garden, coordinator: User) -> Garden:
    """A new garden with its coordinator and a season for the current year."""
    garden.slug = free_slug(garden.name)
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


def assign_plot(
    *, plot: Plot, season: Season, holder: User, co_gardeners: Iterable[User] = (), began_on: date
) -> Assignment:
    """Gives the plot to a member for a season; a constraint lets only one household have it."""
    try:
        with transaction.atomic():
            assignment = Assignment.objects.create(plot=plot, season=season, holder=holder, began_on=began_on)
            assignment.co_gardeners.set(person for person in co_gardeners if person != holder)
            return assignment
    except IntegrityError:
        raise ValidationError(
            _("Somebody already holds %(plot)s this season. End that first.") % {"plot": plot}
        ) from None


@transaction.atomic
def end_assignment(*, assignment: Assignment, ended_on: date) -> None:
    """Frees the plot from the day after `ended_on`; ending it twice changes nothing."""
    current = Assignment.objects.select_for_update().get(pk=assignment.pk)
    if current.ended_on is None:
        current.ended_on = max(ended_on, current.began_on)
        current.save(update_fields=["ended_on"])
