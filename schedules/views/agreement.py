"""The agreement on paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _
from django.utils.translation import override
from django.views.decorators.http import require_safe

from plots import access, queries
from plots.models import AgreementText, AgreementVersion, Garden
from plots.powers import Power
from plots.queries import Signer
from schedules.views.paper import head_of, paper

if TYPE_CHECKING:
    from schedules.reports.agreement import ToSign


@require_safe
def agreement_pdf(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """One text of the agreement to sign by hand; a draft only for who writes it."""
    garden = access.garden_to_see(request.user, slug)
    texts = AgreementText.objects.select_related("version")
    text = get_object_or_404(texts, version__garden=garden, pk=pk)
    is_draft = text.version.in_force_on is None
    if is_draft and not access.may_run(request.user, garden, Power.SETTINGS):
        raise Http404
    from schedules.reports.agreement import agreement_sheet  # lazy: reportlab

    with override(text.language):
        version = _("Version %(number)s") % {"number": text.version.number}
        draft = _("Draft, not in force") if is_draft else ""
        head = head_of(garden, text.title, subtitle=" · ".join(filter(None, (version, draft))))
        sheet = agreement_sheet(head, body=text.body, checked_by=text.checked_by)
    return paper(sheet, f"{garden.slug} {text.title}", private=False)


@require_safe
def agreements_to_sign(request: HttpRequest, slug: str) -> HttpResponse:
    """A sheet for everybody who has not signed, each in their own language, in one file."""
    from schedules.reports.agreement import agreements_to_sign  # lazy: reportlab

    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    version = queries.agreement_of(garden)
    signers = queries.signers_of(garden, version) if version else []
    sheets = [_to_sign(garden, version, one) for one in signers if version and not one.signature]
    words = {"number": version.number if version else 0}
    head = head_of(garden, _("Agreement, version %(number)s") % words if version else _("Agreement"))
    return paper(agreements_to_sign(head, [one for one in sheets if one]), f"to-sign-{slug}")


def _to_sign(garden: Garden, version: AgreementVersion, signer: Signer) -> ToSign | None:
    from schedules.reports.agreement import ToSign  # lazy: reportlab

    text = queries.text_for(version, signer.person.language or garden.language, garden)
    if text is None:
        return None
    return ToSign(signer.person.name, text.language, text.title, text.body, text.checked_by)
