"""Letters and agreements for all who need them on paper, in one file."""

from datetime import date
from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from plots.models import Membership
from tests.factories import MembershipFactory

pytestmark = pytest.mark.django_db


def pages_of(answer):
    return [page.extract_text() for page in PdfReader(BytesIO(answer.content)).pages]


def test_letters_of_who_has_no_email_come_as_one_file(cast, as_user, settings, time_machine):
    time_machine.move_to("2024-05-01T18:00Z", tick=False)
    settings.EMAIL_FROM = "garden@example.org"
    address = reverse("schedules:print_file", args=[cast.garden.slug, "letters", "pdf"])
    run = as_user(cast.coordinator)
    assert "Nobody who asked for the letter needs it on paper." in pages_of(run.get(address))[0]
    Membership.objects.filter(user__in=[cast.holder, cast.member]).update(weekly_letter=True)
    MembershipFactory(garden=cast.garden, user__email="mia@example.org", weekly_letter=True)
    first, second = pages_of(run.get(address))
    assert ("Hollis · A1" in first, "Dear Hollis," in first, "Maren" in first) == (True, True, False)
    assert ("Dear Maren," in second, "Hollis" in second) == (True, False)
    page = run.get(reverse("schedules:letter", args=[cast.garden.slug])).content.decode()
    assert "Print the letters of 2 members who cannot get them by email" in page


def test_agreements_to_sign_come_in_each_persons_language(cast, as_user):
    version = cast.garden.agreements.create(number=2, in_force_on=date(2024, 5, 1))
    english = version.texts.create(language="en", title="Agreement", body="We water by hand.")
    version.texts.create(language="es", title="Acuerdo", body="Regamos a mano.")
    cast.member.language = "es"
    cast.member.save()
    version.signatures.create(
        text=english, person=cast.holder, how="paper", name="Hollis", signed_on=date(2024, 5, 2)
    )
    run = as_user(cast.coordinator)
    sheets = pages_of(
        run.get(reverse("schedules:print_file", args=[cast.garden.slug, "agreements-to-sign", "pdf"]))
    )
    named = {name: text for text in sheets for name in ("Maren", "Corin", "Hollis") if name in text}
    assert sorted(named) == ["Corin", "Maren"]  # a co-gardener signs too; who has signed gets none
    assert ("Regamos a mano." in named["Maren"], "We water by hand." in named["Corin"]) == (True, True)
