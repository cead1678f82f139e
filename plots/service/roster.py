"""Around the roster: consent, households, duties, and where things are."""

from __future__ import annotations

from datetime import date

from django.apps import apps
from django.core.exceptions import ValidationError
from django.db import IntegrityError, models, transaction
from django.utils.translation import gettext as _

from plots.models import CONTACTS, Change, Duty, Garden, Household, Membership, User
from plots.powers import Power
from plots.service.history import fields_of, record, record_fields, save_changes
from plots.service.undo import put_back, thing_of, undoable

CONSENTS = tuple(f"{name}_for" for name in CONTACTS)
PAPER_CONSENTS = (*CONSENTS, "weekly_letter")
_EMERGENCY = ("emergency_name", "emergency_phone")


@transaction.atomic
def change_own_part(*, membership: Membership, by: User, why: str = "") -> None:
    """Keeps who may see how to reach the member, and whom to call; the call itself is not in the history."""
    former = Membership.objects.select_for_update().get(pk=membership.pk)
    membership.save(update_fields=[*CONSENTS, *_EMERGENCY])
    before = fields_of(former, CONSENTS)
    now = fields_of(membership, CONSENTS)
    changed = [name for name in CONSENTS if before[name] != now[name]]
    if changed:
        record(
            garden=membership.garden, by=by, about=membership.user, what="consent-changed", why=why,
            before={name: before[name] for name in changed}, after={name: now[name] for name in changed},
        )  # fmt: skip


@transaction.atomic
def keep_paper_consent(*, membership: Membership, agreed_on: date, by: User) -> None:
    """Keeps what the member agreed to on a paper of that day; the history says who typed it in.

    What stayed as it was is kept beside it: the paper says that, too.
    """
    former = Membership.objects.select_for_update().get(pk=membership.pk)
    membership.save(update_fields=PAPER_CONSENTS)
    before, now = fields_of(former, PAPER_CONSENTS), fields_of(membership, PAPER_CONSENTS)
    changed = {name: value for name, value in before.items() if value != now[name]}
    record(
        garden=membership.garden, by=by, about=membership.user, what="consent-on-paper",
        before=changed, after={**now, "agreed_on": agreed_on},
    )  # fmt: skip


@undoable("consent-on-paper", power=None)
def _paper_consent_back(change: Change, _by: User) -> None:
    """A paper typed in wrongly; what a member says on their own page is theirs alone to change."""
    membership = Membership.objects.filter(garden=change.garden, user_id=change.about_pk).first()
    if membership is None or any(getattr(membership, key) != change.after[key] for key in change.before):
        raise ValidationError(_("It was changed again since."))
    for name, former in change.before.items():
        setattr(membership, name, former)
    membership.save(update_fields=list(change.before))


@transaction.atomic
def change_person(*, membership: Membership, person: User, household: str, by: User | None) -> None:
    """Saves a member's name and addresses, and the household they belong to."""
    save_changes(garden=membership.garden, by=by, row=person, what="person-changed")
    join_household(membership=membership, name=household, by=by)


@transaction.atomic
def join_household(*, membership: Membership, name: str, by: User | None) -> None:
    """Puts the member into the household of that name, made if it is new; an empty name takes them out.

    A household that nobody belongs to any more goes away.
    """
    former = membership.household
    garden = membership.garden
    Garden.objects.select_for_update().get(pk=garden.pk)
    household = household_named(garden, name) if name else None
    if household == former:
        return
    _move_to(membership, household)
    record(
        garden=garden, by=by, about=membership.user, what="household-changed",
        before={"household": str(former or "")}, after={"household": str(household or "")},
    )  # fmt: skip


def _move_to(membership: Membership, household: Household | None) -> None:
    former, membership.household = membership.household, household
    membership.save(update_fields=["household"])
    if former is not None and not former.memberships.exists():
        former.delete()


@undoable("household-changed", power=Power.PEOPLE)
def _household_back(change: Change, _by: User) -> None:
    members = Membership.objects.select_related("household", "garden")
    membership = members.filter(garden=change.garden, user_id=change.about_pk).first()
    if membership is None or str(membership.household or "") != change.after["household"]:
        raise ValidationError(_("The household was changed again since."))
    name = change.before["household"]
    _move_to(membership, household_named(membership.garden, name) if name else None)


def household_named(garden: Garden, name: str) -> Household:
    """The household of this name, made if there is none."""
    found = garden.households.filter(name__iexact=name).first()
    return found or Household.objects.create(garden=garden, name=name)


@transaction.atomic
def keep_thing(*, garden: Garden, thing: models.Model, by: User, what: str) -> None:
    """Saves a duty or the whereabouts of something; `what` is `duty` or `whereabout`."""
    names = [field.name for field in thing._meta.concrete_fields if not field.primary_key]
    former = type(thing)._default_manager.filter(pk=thing.pk).first()
    try:
        with transaction.atomic():
            thing.save()
    except IntegrityError:
        raise ValidationError(_("Somebody has just taken the same name. Please look again.")) from None
    if former is None:
        record(garden=garden, by=by, about=thing, what=f"{what}-made")
    else:
        before = fields_of(former, names)
        record_fields(garden=garden, by=by, about=thing, what=f"{what}-changed", before=before)


@transaction.atomic
def remove_thing(*, garden: Garden, thing: models.Model, by: User, what: str) -> None:
    """Takes a duty or the whereabouts of something away; the history keeps that it was there."""
    names = [field.name for field in thing._meta.concrete_fields if field.name not in ("id", "garden")]
    record(garden=garden, by=by, about=thing, what=f"{what}-removed", before=fields_of(thing, names))
    thing.delete()


@undoable("whereabout-removed", power=Power.SETTINGS)
@undoable("duty-removed", power=Power.PEOPLE)
def _on_the_list_again(change: Change, _by: User) -> None:
    model = apps.get_model(change.about_model)
    kept = {name: value["pk"] if isinstance(value, dict) else value for name, value in change.before.items()}
    fields = {model._meta.get_field(name): value for name, value in kept.items()}
    row = model(
        garden=change.garden, **{field.attname: field.to_python(value) for field, value in fields.items()}
    )
    if isinstance(row, Duty):
        _only_members(row)
    row.save()


@undoable("duty-changed", power=Power.PEOPLE)
def _duty_as_before(change: Change, by: User) -> None:
    put_back(change, by)
    _only_members(thing_of(change))


undoable("whereabout-changed", power=Power.SETTINGS)(put_back)


def _only_members(duty: models.Model) -> None:
    """Refuses a duty of somebody who has left meanwhile."""
    people = {pk for pk in (duty.holder_id, duty.deputy_id) if pk is not None}
    here = Membership.objects.filter(garden=duty.garden_id, user__in=people, user__is_active=True)
    if here.count() < len(people):
        raise ValidationError(_("Who did it then does not belong to the garden any more."))
