"""Members of a garden: who joins, changes part, and leaves."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from plots.models import Assignment, Change, Garden, Household, Membership, Role, User
from plots.powers import powers_of
from plots.service.history import record
from plots.service.sharing import change_co_gardeners
from plots.service.undo import undoable
from plots.spelling import first_free, folded


def free_sign_in_name(name: str) -> str:
    """A sign-in name made from a person's name, with a number behind it where it is taken."""
    stem = folded(name).replace("@", "").replace(" ", ".")[:50] or "member"
    taken = set(User.objects.filter(sign_in_name__startswith=stem).values_list("sign_in_name", flat=True))
    return first_free(stem, taken, ".")


def add_member(
    *,
    garden: Garden,
    user: User,
    role: Role,
    powers: Iterable[str] = (),
    household: Household | None = None,
    by: User | None = None,
    why: str = "",
) -> Membership:
    """Makes the person a member; a new person is saved on the way."""
    try:
        with transaction.atomic():
            if user.pk is None:
                user.sign_in_name = user.sign_in_name or free_sign_in_name(user.name)
                user.set_unusable_password()
                user.save()
            stated = _stated(role, powers)
            membership = Membership.objects.create(
                garden=garden, user=user, role=role, powers=stated, household=household
            )
            given = {"role": str(role), "powers": stated}
            record(garden=garden, by=by, about=user, what="member-joined", after=given, why=why)
            return membership
    except IntegrityError:
        raise ValidationError(
            _("This person is already here, or somebody has just taken the name.")
        ) from None


@transaction.atomic
def change_role(
    *,
    membership: Membership,
    role: Role,
    powers: Iterable[str] = (),
    by: User | None = None,
    why: str = "",
) -> None:
    """Makes the member something else in the garden; only a helper has stated powers."""
    if role != Role.COORDINATOR:
        _keep_a_coordinator(membership)
    before = {"role": membership.role, "powers": list(membership.powers)}
    membership.role, membership.powers = str(role), _stated(role, powers)
    membership.save(update_fields=["role", "powers"])
    after = {"role": membership.role, "powers": membership.powers}
    if after != before:
        record(
            garden=membership.garden, by=by, about=membership.user, what="role-changed",
            before=before, after=after, why=why,
        )  # fmt: skip


@undoable("role-changed", power=None)
def _role_back(change: Change, _by: User) -> None:
    membership = Membership.objects.filter(garden=change.garden, user_id=change.about_pk).first()
    now = membership and {"role": membership.role, "powers": membership.powers}
    if membership is None or now != change.after:
        raise ValidationError(_("The part in the garden was changed again since."))
    if change.before["role"] != Role.COORDINATOR:
        _keep_a_coordinator(membership)
    membership.role, membership.powers = change.before["role"], change.before["powers"]
    membership.save(update_fields=["role", "powers"])


@transaction.atomic
def remove_member(*, membership: Membership, by: User | None = None, why: str = "") -> None:
    """Ends the membership; the person's account, and the history of plots they held, stay."""
    _keep_a_coordinator(membership)
    tomorrow = membership.garden.today() + timedelta(days=1)
    held = Assignment.objects.standing(tomorrow).filter(
        plot__garden=membership.garden, holder=membership.user
    )
    labels = ", ".join(held.values_list("plot__label", flat=True))
    if labels:
        raise ValidationError(
            _("%(person)s still holds %(plots)s. End that first.")
            % {"person": membership.user, "plots": labels}
        )
    shared_now = membership.user.shared_assignments.standing(tomorrow)
    for shared in shared_now.filter(plot__garden=membership.garden):
        change_co_gardeners(
            assignment=shared,
            people=[person for person in shared.co_gardeners.all() if person != membership.user],
            by=by,
        )
    before = {"role": membership.role, "powers": membership.powers}
    record(garden=membership.garden, by=by, about=membership.user, what="member-left", before=before, why=why)
    membership.delete()


def _stated(role: Role, powers: Iterable[str]) -> list[str]:
    return sorted(powers_of(role, powers)) if role == Role.HELPER else []


def _keep_a_coordinator(membership: Membership) -> None:
    # Locking the garden makes two coordinators who step down at once wait for each other.
    garden = Garden.objects.select_for_update().get(pk=membership.garden_id)
    # As the database has it: who opened the page before they were made a coordinator is one by now.
    coordinators = garden.memberships.filter(role=Role.COORDINATOR).values_list("pk", flat=True)
    if list(coordinators) == [membership.pk]:
        raise ValidationError(
            _("%(person)s is the only coordinator. Make somebody else one first.")
            % {"person": membership.user}
        )
