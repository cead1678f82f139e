"""Forgetting somebody who left: what is erased, and what stays without a name.

Erased: name, addresses and sign-in; links and secret addresses; photos; kept sheets that name them; pauses
and stand-ins; the words of matters about their plots, of findings there while they held them, and beside
their renewals; what they said on the waiting list. The full name, email, telephone and address go wherever
they stand in free words, in the history too. Kept, as of "a former member": which plots were held when,
hours, dues, signatures, logs, how matters ended, and who was told what: counts, days and sums that the garden
answers for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django.apps import apps
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import CharField, F, Field, Model, Q, QuerySet, TextField
from django.utils.translation import gettext as _

from plots.models import (
    Assignment,
    Change,
    Finding,
    Garden,
    MatterStep,
    Pause,
    Signature,
    StandIn,
    TellsOfPeople,
    User,
    WaitingEntry,
)
from plots.service.history import record
from plots.service.photos import forget_photos

SECRETS = frozenset({"token", "token_hash"})
# The catalogue of crops is nobody's; of what it takes to sign in, only the person's own row is touched.
UNTOUCHED = frozenset({"plots.user", "plots.change", "plots.garden", "crops.crop", "crops.source"})
SHORTEST = 6  # letters of a telephone number or address that can be told from other words


@dataclass(frozen=True)
class _Former:
    """What is searched for, and what stands there afterwards."""

    pk: int
    name: str
    words: re.Pattern[str] | None
    told: tuple[str, ...]
    unnamed: str

    @classmethod
    def of(cls, person: User, unnamed: str) -> _Former:
        """A name of one word is too common to be searched for in free words."""
        full = [person.name] if " " in person.name else []
        ways = [way for way in (person.email, person.phone, person.address) if way and len(way) >= SHORTEST]
        told = tuple(sorted((*full, *ways), key=len, reverse=True))
        words = re.compile("|".join(rf"(?<!\w){re.escape(one)}(?!\w)" for one in told), re.IGNORECASE)
        return cls(person.pk, person.name, words if told else None, told, unnamed)

    def without(self, value: object) -> object:
        """A kept value with the person's name and addresses replaced."""
        if value == {"pk": self.pk, "name": self.name}:
            return {"pk": self.pk, "name": self.unnamed}
        if isinstance(value, dict):
            return {key: self.without(inner) for key, inner in value.items()}
        if isinstance(value, list):
            return [self.without(inner) for inner in value]
        return self.words.sub(self.unnamed, value) if isinstance(value, str) and self.words else value


@transaction.atomic
def forget_person(*, garden: Garden, person: User, by: User) -> None:
    """Erases what is known of somebody who belongs to no garden any more; see the head of this module."""
    if person.memberships.exists():
        raise ValidationError(_("%(person)s still belongs to a garden here.") % {"person": person})
    if person.is_staff:
        raise ValidationError(_("%(person)s keeps this installation.") % {"person": person})
    mine = Q(member=person) | Q(garden=garden, email=person.email or None)
    entries = WaitingEntry.objects.filter(mine)
    if entries.filter(place__isnull=False).exists():
        raise ValidationError(_("%(person)s still waits for a plot here.") % {"person": person})
    former = _Former.of(person, _("a former member"))
    forget_photos(person=person)
    _throw_away(person)
    _let_nobody_in(person)
    _erase_words(person)
    places = _forget_places(entries, person, former)
    _scrub(former)
    _erase_person(person, former)
    _rewrite_history(person, former, places)
    record(garden=garden, by=by, about=person, what="person-forgotten")


def _throw_away(person: User) -> None:
    """What tells of them and cannot be rewritten."""
    for model in apps.get_models():
        if issubclass(model, TellsOfPeople):
            for row in model._default_manager.filter(people=person):
                row.delete()


def _let_nobody_in(person: User) -> None:
    """Links, requests for one, and secret addresses, whichever app they belong to."""
    for relation in person._meta.related_objects:
        if SECRETS & {field.name for field in relation.related_model._meta.concrete_fields}:
            relation.related_model._default_manager.filter(**{relation.field.name: person}).delete()
    person.link_requests.all().delete()


def _erase_words(person: User) -> None:
    """What was written about their care of plots, and why they could not come."""
    Pause.objects.filter(assignment__holder=person).delete()
    StandIn.objects.filter(Q(person=person) | Q(assignment__holder=person)).delete()
    MatterStep.objects.filter(matter__assignment__holder=person).update(text="")
    held = Q(plot__assignments__holder=person, plot__assignments__began_on__lte=F("round__day"))
    still = Q(plot__assignments__ended_on=None) | Q(plot__assignments__ended_on__gte=F("round__day"))
    noted = Finding.objects.filter(held & still).values("pk")
    Finding.objects.filter(pk__in=list(noted.values_list("pk", flat=True))).update(note="")
    for assignment in Assignment.objects.filter(holder=person):
        assignment.renewals.update(note="")
    person.duties.update(holder=None)
    person.deputed_duties.update(deputy=None)
    Signature.objects.filter(person=person).update(name=_("a former member"))


def _forget_places(entries: QuerySet[WaitingEntry], person: User, former: _Former) -> list[int]:
    """Their former places on waiting lists lose who it was; says which these are."""
    keys = list(entries.values_list("pk", flat=True))
    blank = {"email": "", "phone": "", "address": "", "note": "", "member": None}
    WaitingEntry.objects.filter(pk__in=keys).update(name=former.unnamed, **blank)
    WaitingEntry.objects.filter(household_of=person).update(household_of=None)
    return keys


def _scrub(former: _Former) -> None:
    """Takes name and addresses out of free words, wherever people may have written them."""
    if former.words is None:
        return
    for model, fields in _free_words():
        found = Q()
        for field in fields:
            for told in former.told:
                found |= Q(**{f"{field.name}__icontains": told})
        for row in model._default_manager.filter(found):
            changed = {field.name: former.without(getattr(row, field.name)) for field in fields}
            model._default_manager.filter(pk=row.pk).update(**changed)


def _free_words() -> Iterator[tuple[type[Model], list[Field]]]:
    """The columns of every kind of row that people write into as they like."""
    for model in apps.get_models():
        if (
            model._meta.app_label not in ("plots", "crops", "schedules")
            or model._meta.label_lower in UNTOUCHED
        ):
            continue
        fields = [field for field in model._meta.concrete_fields if _is_free(field)]
        if fields:
            yield model, fields


def _is_free(field: Field) -> bool:
    return isinstance(field, CharField | TextField) and not (field.choices or field.unique)


def _erase_person(person: User, former: _Former) -> None:
    person.name, person.sign_in_name = former.unnamed, f"former.{person.pk}"
    person.email, person.phone, person.address, person.is_active = None, "", "", False
    person.language, person.last_login = "", None
    person.set_unusable_password()
    person.save()


def _rewrite_history(person: User, former: _Former, entries: Iterable[int]) -> None:
    """Their name goes out of who did something, of what it was about, and of the values kept."""
    about = Change.objects.filter(about_model=User._meta.label_lower, about_pk=person.pk)
    about.filter(what="person-changed").update(before={}, after={})
    about.update(about_name=former.unnamed)
    places = Change.objects.filter(about_model=WaitingEntry._meta.label_lower, about_pk__in=list(entries))
    places.filter(what="waiting-changed").update(before={}, after={})
    places.filter(by=None).update(by_name=former.unnamed)  # who answered by a link
    places.update(about_name=former.unnamed)
    Change.objects.filter(by=person).update(by_name=former.unnamed)
    for change in Change.objects.iterator():
        values = change.before, change.after, change.about_name, change.why, change.by_name
        renamed = tuple(former.without(value) for value in values)
        if renamed != values:
            change.before, change.after, change.about_name, change.why, change.by_name = renamed
            change.save(update_fields=["before", "after", "about_name", "why", "by_name"])
    _name_again(person, former)


def _name_again(person: User, former: _Former) -> None:
    """What was about something of theirs is named after it as it is now: such as what they owed."""
    for relation in person._meta.related_objects:
        model = relation.related_model
        mine = list(
            model._default_manager.filter(**{relation.field.name: person}).values_list("pk", flat=True)
        )
        changes = Change.objects.filter(about_model=model._meta.label_lower, about_pk__in=mine)
        for change in changes.filter(about_name__icontains=former.name):
            change.about_name = str(model._default_manager.get(pk=change.about_pk))[:200]
            change.save(update_fields=["about_name"])
