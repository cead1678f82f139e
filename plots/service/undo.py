"""Taking a change back where that is safe: it is itself a change, and kept as one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from django.apps import apps
from django.core.exceptions import ObjectDoesNotExist, ValidationError
from django.db import IntegrityError, models, transaction
from django.utils.translation import gettext as _

from plots.models import Change, Garden, User
from plots.powers import Power
from plots.service.history import kept

Back = Callable[[Change, User], None]
Fits = Callable[[Change], bool]


@dataclass(frozen=True)
class Undo:
    """Who may take such a change back (`None`: coordinators alone), how, and whether it is still offered."""

    power: Power | None
    back: Back
    fits: Fits


UNDO: dict[str, Undo] = {}


def undoable(*codes: str, power: Power | None, fits: Fits = lambda _change: True) -> Callable[[Back], Back]:
    """Says how changes with these codes are taken back: stands before a function of change and person.

    Only changes that `fits` says yes to have a button; it reads the change and its garden alone.
    """

    def keep(back: Back) -> Back:
        UNDO.update(dict.fromkeys(codes, Undo(power, back, fits)))
        return back

    return keep


def undo(*, change: Change, by: User) -> None:
    """Takes the change back, once; refused with the reason where something newer stands on it."""
    how = UNDO.get(change.what)
    if how is None:
        raise ValidationError(_("This cannot be undone with a button. Change it by hand."))
    try:
        with transaction.atomic():
            # Two who press at once wait here for each other.
            Garden.objects.select_for_update().get(pk=change.garden_id)
            if Change.objects.filter(undoes=change).exists():
                raise ValidationError(_("This has been undone already."))
            how.back(change, by)
            record_undo(change=change, by=by)
    except IntegrityError:
        raise ValidationError(_("What was there before is taken by something else now.")) from None


def record_undo(*, change: Change, by: User) -> Change:
    return Change.objects.create(
        garden_id=change.garden_id,
        about_model=change.about_model,
        about_pk=change.about_pk,
        about_name=change.about_name,
        what=change.what,
        before=change.after,
        after=change.before,
        by=by,
        by_name=str(by)[:120],
        undoes=change,
    )


def thing_of(change: Change) -> models.Model:
    """The row that was changed, locked; refused when it is gone."""
    try:
        model = apps.get_model(change.about_model)
        return model._default_manager.select_for_update().get(pk=change.about_pk)
    except (LookupError, ObjectDoesNotExist):
        raise ValidationError(_("%(thing)s is no longer there.") % {"thing": change.about_name}) from None


def put_back(change: Change, _by: User) -> None:
    """Gives the fields their former values, unless one of them was changed again since."""
    thing = thing_of(change)
    for name, former in change.before.items():
        field = thing._meta.get_field(name)
        if kept(getattr(thing, name)) != change.after.get(name):
            raise ValidationError(_("It was changed again since: %(field)s.") % {"field": field.verbose_name})
        is_row = isinstance(former, dict) and "pk" in former
        setattr(thing, field.attname, former["pk"] if is_row else field.to_python(former))
    thing.full_clean(validate_unique=False)
    thing.save(update_fields=list(change.before))


undoable("settings-changed", "rules-changed", power=Power.SETTINGS)(put_back)
undoable("season-changed", power=Power.PLOTS)(put_back)
