"""Asking again who has not answered about their plot: drafted as a notice, which a person sends."""

from __future__ import annotations

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import transaction
from django.urls import reverse
from django.utils import translation
from django.utils.translation import gettext as _

from plots.models import Audience, Garden, Notice, RenewalRound, User
from plots.queries.turn import held_in
from plots.renewal import Advice
from plots.wording.renewal import reminder_body, reminder_subject


@transaction.atomic
def draft_reminder(*, round: RenewalRound, by: User) -> Notice:
    """A notice to the people of every plot that is silent past its day; the same draft while it is one."""
    garden = Garden.objects.select_for_update().get(pk=round.season.garden_id)
    silent = [row.assignment for row in held_in(round) if row.standing == Advice.REMIND]
    people = {person for one in silent for person in (one.holder, *one.co_gardeners.all())}
    if not people:
        raise ValidationError(_("Nobody is to be asked again today."))
    link = settings.SITE.origin + reverse("plots:own_season", args=[garden.slug])
    with translation.override(garden.language or translation.get_language()):
        subject = reminder_subject(round.season.name)[:120]
        body = reminder_body(round.season.name, round.answer_by, round.last_call, link)
    draft = garden.notices.filter(subject=subject, given_at=None, audience=Audience.PICKED).first()
    if draft is None:
        draft = Notice.objects.create(
            garden=garden, subject=subject, body=body, audience=Audience.PICKED, made_by=by
        )
    draft.picked.set(people)
    return draft
