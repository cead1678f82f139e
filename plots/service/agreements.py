"""The agreement: its versions and texts, and who signed."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from plots.models import AgreementText, AgreementVersion, Garden, Signature, SignedHow, User
from plots.service.history import record


def draft_version(*, garden: Garden) -> AgreementVersion:
    """The version being written; begun with the texts now in force, so that only what changes is typed."""
    draft = garden.agreements.filter(in_force_on__isnull=True).first()
    if draft is not None:
        return draft
    latest = garden.agreements.first()
    try:
        with transaction.atomic():
            draft = garden.agreements.create(number=latest.number + 1 if latest else 1)
            if latest is not None:
                AgreementText.objects.bulk_create(
                    AgreementText(version=draft, language=text.language, title=text.title, body=text.body)
                    for text in latest.texts.all()
                )
            return draft
    except IntegrityError:  # somebody began one at the same moment
        return garden.agreements.get(in_force_on__isnull=True)


@transaction.atomic
def keep_text(*, text: AgreementText, by: User) -> AgreementText:
    """A text of a draft, or one more language of a version in force, which its history then says."""
    new = text.pk is None
    text.save()
    version = text.version
    if new and version.in_force_on is not None:
        after = {"language": text.get_language_display(), "title": text.title}
        record(garden=version.garden, by=by, about=version, what="agreement-text-added", after=after)
    return text


@transaction.atomic
def put_in_force(*, version: AgreementVersion, on: date, by: User | None) -> AgreementVersion:
    """From now on everybody signs this version, and none of its texts changes any more."""
    version = AgreementVersion.objects.select_for_update().get(pk=version.pk)
    if not version.texts.exists():
        raise ValidationError(_("The agreement has no text yet."))
    if version.in_force_on is None:
        version.in_force_on = on
        version.save(update_fields=["in_force_on"])
        languages = [text.get_language_display() for text in version.texts.all()]
        after = {"in_force_on": on, "languages": languages}
        record(garden=version.garden, by=by, about=version, what="agreement-in-force", after=after)
    return version


def sign(
    *, text: AgreementText, person: User, name: str, how: SignedHow, signed_on: date, by: User
) -> Signature:
    """Keeps that the person agreed to this text; signing the same version again changes nothing."""
    version = text.version
    if version.in_force_on is None:
        raise ValidationError(_("This version of the agreement is not in force."))
    with transaction.atomic():
        # Whoever sends the form twice waits for the first and then finds it signed.
        AgreementVersion.objects.select_for_update().get(pk=version.pk)
        signed = version.signatures.filter(person=person, taken_back_at__isnull=True).first()
        if signed is not None:
            return signed
        signature = Signature.objects.create(
            text=text, version=version, person=person, how=how, name=name, signed_on=signed_on, kept_by=by
        )
        after = {"version": version.number, "language": text.get_language_display(), "signed_on": signed_on}
        record(garden=version.garden, by=by, about=person, what=f"signed-{how}", after=after)
        return signature


@transaction.atomic
def take_signature_back(*, signature: Signature, by: User, why: str = "") -> None:
    """For one that was marked by mistake; it stays in the history."""
    signature = Signature.objects.select_related("person", "version__garden").get(pk=signature.pk)
    live = Signature.objects.filter(pk=signature.pk, taken_back_at__isnull=True)
    if live.update(taken_back_at=timezone.now()):
        garden, before = signature.version.garden, {"signed_on": signature.signed_on}
        record(
            garden=garden, by=by, about=signature.person, what="signature-taken-back", before=before, why=why
        )
