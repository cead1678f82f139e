"""Who gardens a plot beside its holder."""

from __future__ import annotations

from collections.abc import Iterable

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from plots.models import Assignment, Change, User
from plots.powers import Power
from plots.service.history import record
from plots.service.undo import undoable


@transaction.atomic
def change_co_gardeners(
    *, assignment: Assignment, people: Iterable[User], by: User | None = None, why: str = ""
) -> None:
    """Makes these people, and nobody else, the co-gardeners; the holder stays what they are."""
    current = Assignment.objects.select_for_update().select_related("plot__garden").get(pk=assignment.pk)
    chosen = sorted({person for person in people if person.pk != current.holder_id}, key=_by_name)
    former = sorted(current.co_gardeners.all(), key=_by_name)
    if chosen == former:
        return
    current.co_gardeners.set(chosen)
    record(
        garden=current.plot.garden,
        by=by,
        about=current.plot,
        what="sharing-changed",
        before={"holder": current.holder, "co_gardeners": former},
        after={"holder": current.holder, "co_gardeners": chosen},
        why=why,
    )


def _by_name(person: User) -> tuple[str, int]:
    return person.name, person.pk


@undoable("sharing-changed", power=Power.PLOTS)
def _sharing_back(change: Change, _by: User) -> None:
    holder = change.after["holder"]["pk"]
    assignment = (
        Assignment.objects.standing(change.garden.today())
        .filter(plot_id=change.about_pk, holder_id=holder)
        .order_by("began_on")
        .first()
    )
    now = set(assignment.co_gardeners.values_list("pk", flat=True)) if assignment else None
    if assignment is None or now != {kept["pk"] for kept in change.after["co_gardeners"]}:
        raise ValidationError(_("Who shares the plot was changed again since."))
    former = [kept["pk"] for kept in change.before["co_gardeners"]]
    members = User.objects.filter(pk__in=former, memberships__garden=change.garden)
    assignment.co_gardeners.set(members)
