"""Members of a garden: who joins, changes part, and leaves."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from plots.models import Assignment, Garden, Membership, Role, User
from plots.spelling import first_free, folded


def free_sign_in_name(name: str) -> str:
    """A sign-in name made from a person's name, with a number behind it where it is taken."""
    stem = folded(name).replace("@", "").replace(" ", ".")[:50] or "member"
    taken = set(User.objects.filter(sign_in_name__startswith=stem).values_list("sign_in_name", flat=True))
    return first_free(stem, taken, ".")


def add_member(*, garden: Garden, user: User, role: Role) -> Membership:
    """Makes the person a member; a new person is saved on the way."""
    try:
        with transaction.atomic():
            if user.pk is None:
                user.sign_in_name = user.sign_in_name or free_sign_in_name(user.name)
                user.set_unusable_password()
                user.save()
            return Membership.objects.create(garden=garden, user=user, role=role)
    except IntegrityError:
        raise ValidationError(
            _("This person is already here, or somebody has just taken the name.")
        ) from None


@transaction.atomic
def change_role(*, membership: Membership, role: Role) -> None:
    if role != Role.COORDINATOR:
        _keep_a_coordinator(membership)
    membership.role = role
    membership.save(update_fields=["role"])


@transaction.atomic
def remove_member(*, membership: Membership) -> None:
    """Ends the membership; the person's account, and the history of plots they held, stay."""
    _keep_a_coordinator(membership)
    held = Assignment.objects.filter(
        plot__garden=membership.garden, holder=membership.user, ended_on__isnull=True
    )
    labels = ", ".join(held.values_list("plot__label", flat=True))
    if labels:
        raise ValidationError(
            _("%(person)s still holds %(plots)s. End that first.")
            % {"person": membership.user, "plots": labels}
        )
    shared_now = membership.user.shared_assignments.filter(ended_on__isnull=True)
    for shared in shared_now.filter(plot__garden=membership.garden):
        shared.co_gardeners.remove(membership.user)
    membership.delete()


def _keep_a_coordinator(membership: Membership) -> None:
    # Locking the garden makes two coordinators who step down at once wait for each other.
    Garden.objects.select_for_update().get(pk=membership.garden_id)
    others = Membership.objects.filter(garden=membership.garden, role=Role.COORDINATOR).exclude(
        pk=membership.pk
    )
    if membership.role == Role.COORDINATOR and not others.exists():
        raise ValidationError(
            _("%(person)s is the only coordinator. Make somebody else one first.")
            % {"person": membership.user}
        )
