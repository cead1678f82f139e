"""The agreement: to read and sign in one's own language, its versions, and who has not signed."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import get_language, gettext_lazy
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.turn import AgreementTextForm, PaperForm, SignForm
from plots.listing import Column, Filter, Listing
from plots.models import AgreementText, AgreementVersion, Garden, Signature, SignedHow
from plots.powers import Power
from plots.queries import Signer
from plots.views.answers import form_page, list_page, page_with_form, typed

STATES = [
    ("unsigned", gettext_lazy("not signed")),
    (str(SignedHow.SCREEN.value), gettext_lazy("signed on screen")),
    (str(SignedHow.PAPER.value), gettext_lazy("signed on paper")),
]
WORDS = dict(STATES)
SIGNERS: Listing[Signer] = Listing(
    columns=[
        Column("name", gettext_lazy("Who"), lambda signer: signer.person.name),
        Column("state", gettext_lazy("State"), lambda signer: str(WORDS[signer.state])),
        Column(
            "signed_on",
            gettext_lazy("Signed on"),
            lambda signer: signer.signature and signer.signature.signed_on,
        ),
        Column(
            "language",
            gettext_lazy("Language"),
            lambda signer: signer.signature and signer.signature.text.get_language_display(),
        ),
        Column("email", gettext_lazy("Email"), lambda signer: signer.person.email, on_page=False),
        Column("phone", gettext_lazy("Telephone"), lambda signer: signer.person.phone, on_page=False),
    ],
    filters=[Filter("state", gettext_lazy("State"), STATES, lambda signer, word: signer.state == word)],
    text=lambda signer: signer.person.name,
    sort="name",
)
VERSIONS: Listing[AgreementVersion] = Listing(
    columns=[
        Column("number", gettext_lazy("Version"), lambda one: one.number),
        Column("in_force_on", gettext_lazy("In force from"), lambda one: one.in_force_on),
        Column(
            "languages",
            gettext_lazy("Languages"),
            lambda one: ", ".join(text.get_language_display() for text in one.texts.all()),
        ),
        Column("signed", gettext_lazy("Signatures"), lambda one: one.signed),
    ],
    filters=[
        Filter(
            "state",
            gettext_lazy("State"),
            [("draft", gettext_lazy("draft")), ("in-force", gettext_lazy("put in force"))],
            lambda one, word: (one.in_force_on is None) == (word == "draft"),
        )
    ],
    text=lambda one: " ".join(f"{text.title} {text.body}" for text in one.texts.all()),
)


@page_with_form
def agreement(request: HttpRequest, slug: str) -> HttpResponse:
    """The agreement in force, in one's own language or another it has, with one's signature under it."""
    garden = access.garden_to_see(request.user, slug)
    version = queries.agreement_of(garden)
    asked = request.GET.get("language") or request.user.language or get_language() or ""
    text = queries.text_for(version, asked, garden) if version else None
    form = SignForm(typed(request), initial={"name": request.user.name})
    if text is not None and form.is_bound and form.is_valid():
        service.sign(
            text=text, person=request.user, name=form.cleaned_data["name"], how=SignedHow.SCREEN,
            signed_on=garden.today(), by=request.user,
        )  # fmt: skip
        messages.success(request, _("Thank you. Your signature is kept."))
        return redirect("plots:own_season", slug)
    context = {
        "garden": garden,
        "version": version,
        "text": text,
        "signature": queries.signature_of(version, request.user) if version else None,
        "may_settings": access.may_run(request.user, garden, Power.SETTINGS),
        "may_people": access.may_run(request.user, garden, Power.PEOPLE),
    }
    return form_page(request, "plots/agreement.html", form, **context)


@require_safe
def signatures(request: HttpRequest, slug: str) -> HttpResponse:
    """Who signed and who has not."""
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    version = queries.agreement_of(garden)
    rows = queries.signers_of(garden, version) if version else []
    context = {"version": version, "words": WORDS}
    if version is not None:
        context["form"] = PaperForm(garden, version, initial={"person": request.GET.get("person")})
    return list_page(request, "plots/signatures.html", SIGNERS, rows, garden=garden, **context)


@require_POST
def signed_on_paper(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    version = queries.agreement_of(garden)
    if version is None:
        return redirect("plots:signatures", slug)
    form = PaperForm(garden, version, request.POST)
    if not form.is_valid():
        shown = SIGNERS.show(queries.signers_of(garden, version), {})
        context = {"garden": garden, "version": version, "words": WORDS, "shown": shown}
        return form_page(request, "plots/signatures.html", form, **context)
    person = form.cleaned_data["person"]
    kept = {"text": form.cleaned_data["text"], "signed_on": form.cleaned_data["signed_on"]}
    service.sign(person=person, name=person.name, how=SignedHow.PAPER, by=request.user, **kept)
    messages.success(request, _("%(person)s is marked as having signed on paper.") % {"person": person})
    return redirect("plots:signatures", slug)


@require_POST
def signature_back(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    signature = get_object_or_404(Signature, version__garden=garden, pk=pk)
    service.take_signature_back(signature=signature, by=request.user)
    messages.success(request, _("The signature of %(person)s is taken back.") % {"person": signature.person})
    return redirect("plots:signatures", slug)


@require_safe
def versions(request: HttpRequest, slug: str) -> HttpResponse:
    """Every version, the latest first; a draft can still be written."""
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    rows = queries.agreement_versions(garden)
    return list_page(request, "plots/agreement_versions.html", VERSIONS, rows, garden=garden)


@require_safe
def version(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """One version: its texts, what can be done with it, and its history."""
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    found = _version(garden, pk)
    context = {"garden": garden, "version": found, "texts": found.texts.all(), "may_run": True}
    context["changes"] = queries.changes_of(garden, found)
    return render(request, "plots/agreement_version.html", context)


@require_POST
def version_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    draft = service.draft_version(garden=garden)
    first = draft.texts.first()
    if first is not None:
        return redirect("plots:agreement_text", slug, draft.pk, first.pk)
    return redirect("plots:agreement_text_new", slug, draft.pk)


def _version(garden: Garden, pk: int) -> AgreementVersion:
    return get_object_or_404(garden.agreements.select_related("garden"), pk=pk)


@page_with_form
def text_new(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """A text in one more language; a version in force may get translations, too."""
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    return _text_page(request, garden, AgreementText(version=_version(garden, pk), language=garden.language))


@page_with_form
def text_edit(request: HttpRequest, slug: str, pk: int, text_pk: int) -> HttpResponse:
    """A text of the draft to change, one of an older version to read."""
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    version = _version(garden, pk)
    text = get_object_or_404(version.texts, pk=text_pk)
    text.version = version
    if version.in_force_on is not None:
        return render(request, "plots/agreement_text.html", {"garden": garden, "text": text})
    return _text_page(request, garden, text)


def _text_page(request: HttpRequest, garden: Garden, text: AgreementText) -> HttpResponse:
    form = AgreementTextForm(typed(request), instance=text)
    if form.is_bound and form.is_valid():
        service.keep_text(text=form.save(commit=False), by=request.user)
        messages.success(request, _("The text is kept."))
        return redirect("plots:agreement_version", garden.slug, text.version_id)
    return form_page(request, "plots/agreement_text.html", form, garden=garden, text=text)


@require_POST
def version_in_force(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.SETTINGS)
    try:
        service.put_in_force(version=_version(garden, pk), on=garden.today(), by=request.user)
    except ValidationError as error:
        messages.error(request, " ".join(error.messages))
    else:
        messages.success(request, _("The agreement is in force. Everybody is asked to sign it."))
    return redirect("plots:agreement_version", slug, pk)
