"""Going through the steps of setting a garden up."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from plots.models import Garden, SetUp
from plots.set_up import State, Step


@transaction.atomic
def mark_step(*, garden: Garden, step: Step, state: State) -> SetUp:
    """Keeps that the step was done or skipped, now; a step once done stays done."""
    set_up, _made = SetUp.objects.select_for_update().get_or_create(garden=garden)
    if state == State.DONE:
        set_up.skipped = [word for word in set_up.skipped if word != step]
        set_up.done = sorted({*set_up.done, step.value})
    elif step not in set_up.done:
        set_up.skipped = sorted({*set_up.skipped, step.value})
    set_up.save()
    return set_up


def close_set_up(*, garden: Garden) -> None:
    """No page speaks of setting up any more; its own address still works."""
    SetUp.objects.filter(garden=garden, closed_at=None).update(closed_at=timezone.now())


def reopen_set_up(*, garden: Garden) -> None:
    SetUp.objects.update_or_create(garden=garden, defaults={"closed_at": None})
