"""The agreement on paper."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _
from django.utils.translation import override
from django.views.decorators.http import require_safe

from plots import access
from plots.models import AgreementText
from plots.powers import Power
from schedules.views.paper import head_of, paper


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
