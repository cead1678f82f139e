"""Pests and damage: what the garden advises, what was seen, what was used, and a private word about it."""

from __future__ import annotations

from datetime import date, timedelta

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.db.models import Prefetch
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots.access import garden_to_run, garden_to_see, may_run
from plots.listing import Column, Filter, Listing
from plots.models import Garden
from plots.powers import Power
from plots.queries import changes_of
from plots.service import send_waiting
from plots.views.answers import form_page, list_page, page_with_form, saved, typed
from schedules.forms.pests import GuidanceForm, SureForm, WordForm
from schedules.models import Guidance, LogPhoto, SeverityChoice, Sighting, Treatment
from schedules.queries import guidance_about, guidance_of, sightings_of, treatments_of
from schedules.service.guidance import keep_guidance, make_sure, remove_guidance, restore_guidance
from schedules.service.word import give_word, neighbours
from schedules.wording.logs import grown_text
from schedules.wording.pests import word_draft

_LATELY = timedelta(days=30)


@require_safe
def guidance(request: HttpRequest, slug: str) -> HttpResponse:
    """What this garden advises, mildest first, for every member."""
    garden = garden_to_see(request.user, slug)
    cares = may_run(request.user, garden, Power.CARE)
    context = {"garden": garden, "things": guidance_of(garden), "cares": cares}
    return render(request, "schedules/guidance.html", context)


@page_with_form
def guidance_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.CARE)
    return _guidance_form(request, garden, Guidance(garden=garden))


@page_with_form
def guidance_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.CARE)
    return _guidance_form(request, garden, _guidance(garden, pk))


def _guidance_form(request: HttpRequest, garden: Garden, thing: Guidance) -> HttpResponse:
    form = GuidanceForm(typed(request), instance=thing)
    if form.is_bound and form.is_valid():
        changed = form.save(commit=False)
        if saved(form, lambda: keep_guidance(guidance=changed, by=request.user)):
            return redirect("schedules:guidance", garden.slug)
    changes = changes_of(garden, thing) if thing.pk else []
    context = {"garden": garden, "thing": thing, "changes": changes, "may_run": True}
    return form_page(request, "schedules/guidance_edit.html", form, **context)


def _guidance(garden: Garden, pk: int) -> Guidance:
    found = get_object_or_404(garden.guidance, pk=pk)
    found.garden = garden
    return found


@require_POST
def guidance_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.CARE)
    thing = _guidance(garden, pk)
    remove_guidance(guidance=thing, by=request.user)
    messages.success(request, _("“%(thing)s” is off the list.") % {"thing": thing})
    return redirect("schedules:guidance_edit", slug, pk)


@require_POST
def guidance_restore(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = garden_to_run(request.user, slug, Power.CARE)
    if not restore_guidance(guidance=_guidance(garden, pk), by=request.user):
        messages.error(request, _("This garden already has guidance about it."))
    return redirect("schedules:guidance_edit", slug, pk)


def _sightings(garden: Garden) -> Listing[Sighting]:
    return Listing(
        columns=[
            Column("day", _("Day"), lambda one: one.log.day),
            Column("plot", _("Plot"), lambda one: str(one.log.plot)),
            Column("seen", _("Seen"), lambda one: one.seen),
            Column("crop", _("On"), lambda one: grown_text(one.log) or one.seen_on),
            Column("part", _("On what"), lambda one: one.seen_on, on_page=False),
            Column("much", _("How much"), lambda one: one.get_severity_display()),
            Column("by", _("Seen by"), lambda one: one.log.person.name, on_page=False),
            Column("sure", _("Made sure by"), lambda one: one.confirmed_by, on_page=False),
            Column("told", _("Words"), lambda one: one.told),
            Column("note", _("Note"), lambda one: one.log.note, on_page=False),
        ],
        filters=_filters(garden.today() - _LATELY),
        text=lambda one: f"{one.seen} {one.seen_on} {grown_text(one.log)} {one.log.plot} {one.log.note}",
        page_size=50,
    )


def _filters(since: date) -> list[Filter[Sighting]]:
    lately = [("lately", _("in the last 30 days")), ("before", _("before that"))]
    told = [("told", _("a word went out")), ("silent", _("no word yet"))]
    sure = [("sure", _("made sure")), ("unsure", _("not made sure"))]
    return [
        Filter("when", _("When"), lately, lambda one, word: (one.log.day >= since) == (word == "lately")),
        Filter("much", _("How much"), SeverityChoice.choices, lambda one, word: one.severity == word),
        Filter("word", _("Word"), told, lambda one, word: (one.told > 0) == (word == "told")),
        Filter("sure", _("Sure"), sure, lambda one, word: bool(one.confirmed_by) == (word == "sure")),
    ]


@require_safe
def sightings(request: HttpRequest, slug: str) -> HttpResponse:
    """What was seen in the garden, for those trusted with care."""
    garden = garden_to_run(request.user, slug, Power.CARE)
    return list_page(
        request, "schedules/sightings.html", _sightings(garden), sightings_of(garden), garden=garden
    )


def _treatments(garden: Garden) -> Listing[Treatment]:
    return Listing(
        columns=[
            Column("day", _("Day"), lambda one: one.log.day),
            Column("plot", _("Plot"), lambda one: str(one.log.plot)),
            Column("product", _("Product"), lambda one: one.product),
            Column("crop", _("On"), lambda one: grown_text(one.log) or _("the whole plot")),
            Column("days", _("Days"), lambda one: one.label_days),
            Column("until", _("Not before"), lambda one: one.log.day + timedelta(days=one.label_days)),
            Column("asked", _("Agreed"), lambda one: one.asked),
            Column("by", _("Used by"), lambda one: one.log.person.name),
            Column("read", _("Label read"), lambda one: one.read_at, on_page=False),
        ],
        text=lambda one: f"{one.product} {grown_text(one.log)} {one.log.plot} {one.log.person}",
        page_size=50,
    )


@require_safe
def treatments(request: HttpRequest, slug: str) -> HttpResponse:
    """Products used in the garden, with the interval of each label."""
    garden = garden_to_run(request.user, slug, Power.CARE)
    return list_page(
        request, "schedules/treatments.html", _treatments(garden), treatments_of(garden), garden=garden
    )


@require_safe
def sighting(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """One thing seen: where, what the garden advises, who made sure, and who was told."""
    garden = garden_to_run(request.user, slug, Power.CARE)
    found = _sighting(garden, pk)
    return render(request, "schedules/sighting.html", _about(garden, found, SureForm(initial=vars(found))))


def _about(garden: Garden, found: Sighting, form: SureForm) -> dict[str, object]:
    photos = LogPhoto.objects.standing().filter(log=found.log)
    words = found.words.prefetch_related(Prefetch("deliveries__person"))
    return {
        "garden": garden,
        "sighting": found,
        "grown": grown_text(found.log),
        "photos": photos,
        "advice": guidance_about(garden, found.seen),
        "words": words,
        "form": form,
        "changes": changes_of(garden, found),
        "may_run": True,
    }


def _sighting(garden: Garden, pk: int) -> Sighting:
    found = get_object_or_404(sightings_of(garden), pk=pk)
    found.log.garden = garden
    return found


@require_POST
def sighting_sure(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Says who made sure what it is."""
    garden = garden_to_run(request.user, slug, Power.CARE)
    found = _sighting(garden, pk)
    form = SureForm(request.POST)
    if not form.is_valid():
        return form_page(request, "schedules/sighting.html", **_about(garden, found, form))
    make_sure(sighting=found, by=request.user, **form.cleaned_data)
    return redirect("schedules:sighting", slug, pk)


@page_with_form
def sighting_word(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """A private word to the plots it may reach: a person reads it over and sends it."""
    garden = garden_to_run(request.user, slug, Power.CARE)
    found = _sighting(garden, pk)
    near = neighbours(found)
    people = list(dict.fromkeys(person for row in near for person in row.people if person != request.user))
    draft = word_draft(found, guidance_about(garden, found.seen))
    form = WordForm(typed(request), people=people, draft=draft)
    if form.is_bound and form.is_valid():
        try:
            notice = give_word(sighting=found, by=request.user, **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            send_waiting(notice=notice)
            messages.success(request, _("The word is given. Whom to call stands below."))
            return redirect("schedules:sighting", slug, pk)
    return form_page(request, "schedules/sighting_word.html", form, garden=garden, sighting=found, near=near)
