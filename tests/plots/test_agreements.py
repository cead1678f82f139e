"""The agreement: what is signed never changes afterwards, and two presses make one signature."""

from datetime import date

import pytest
from django.core.exceptions import ValidationError
from django.urls import reverse

from plots import queries, service
from plots.models import Change, Due, RenewalRound, Signature, SignedHow
from plots.models.turn import DueKind
from tests.concurrency import at_once
from tests.factories import AssignmentFactory, GardenFactory, MembershipFactory, SeasonFactory
from tests.texts import text_of

DAY = date(2024, 5, 1)


def in_force(garden, by=None, **languages):
    version = service.draft_version(garden=garden)
    for language, body in languages.items():
        version.texts.update_or_create(language=language, defaults={"title": body, "body": body})
    return service.put_in_force(version=version, on=DAY, by=by)


def sign(version, person, language="en", how=SignedHow.SCREEN):
    text = version.texts.get(language=language)
    return service.sign(text=text, person=person, name=person.name, how=how, signed_on=DAY, by=person)


@pytest.mark.django_db
def test_a_new_version_begins_with_the_old_texts_and_asks_everybody_again():
    member = MembershipFactory()
    garden = member.garden
    with pytest.raises(ValidationError, match="no text yet"):
        service.put_in_force(version=service.draft_version(garden=garden), on=DAY, by=None)
    first = in_force(garden, en="By hand.", uk="Руками.")
    sign(first, member.user, "uk")
    assert [signer.state for signer in queries.signers_of(garden, first)] == ["screen"]

    draft = service.draft_version(garden=garden)
    assert service.draft_version(garden=garden) == draft
    assert (draft.number, [text.body for text in draft.texts.all()]) == (2, ["By hand.", "Руками."])
    with pytest.raises(ValidationError, match="not in force"):
        sign(draft, member.user)
    second = in_force(garden, en="By hand, and early.")
    assert queries.agreement_of(garden) == second
    assert [signer.state for signer in queries.signers_of(garden, second)] == ["unsigned"]
    assert first.texts.get(language="en").body == "By hand."


@pytest.mark.django_db
def test_each_reads_it_in_their_language_or_the_gardens():
    garden = GardenFactory(language="es")
    version = in_force(garden, en="Hand", es="Mano", de="Hände")
    chosen = [queries.text_for(version, language, garden).body for language in ("de-AT", "fr", "en")]
    assert chosen == ["Hände", "Mano", "Hand"]


@pytest.mark.django_db
def test_a_signature_taken_back_stays_in_the_history_and_can_be_given_again():
    member = MembershipFactory()
    version = in_force(member.garden, en="By hand.")
    first = sign(version, member.user, how=SignedHow.PAPER)
    service.take_signature_back(signature=first, by=member.user, why="wrong person")
    second = sign(version, member.user)
    assert first != second
    changes = Change.objects.filter(about_model="plots.user").order_by("pk")
    assert [change.what for change in changes] == ["signed-paper", "signature-taken-back", "signed-screen"]


@pytest.mark.django_db
def test_a_text_in_force_is_read_only_and_a_draft_is_not_printed_for_members(cast, as_user):
    version = in_force(cast.garden, en="By hand.")
    run, text = as_user(cast.coordinator), version.texts.get()
    address = reverse("plots:agreement_text", args=["linden-row", version.pk, text.pk])
    run.post(address, {"language": "en", "title": "Other", "body": "Other"})
    text.refresh_from_db()
    assert text.body == "By hand."
    sheet = reverse("schedules:print_file", args=["linden-row", "agreement", "pdf"])
    assert as_user(cast.member).get(sheet, {"text": text.pk}).content.startswith(b"%PDF")
    draft = service.draft_version(garden=cast.garden).texts.get()
    got = [as_user(one).get(sheet, {"text": draft.pk}) for one in (cast.member, cast.coordinator)]
    assert [answer.status_code for answer in got] == [302, 200]  # back to choosing among the texts in force


def test_many_presses_sign_once_draw_up_once_and_renew_once(many_connections):
    held = AssignmentFactory()
    garden, person = held.plot.garden, held.holder
    version = in_force(garden, en="By hand.")
    signed = at_once(lambda _n: sign(version, person), range(3))
    assert len(set(signed)) == Signature.objects.count() == 1

    garden.rules.dues_per_plot = 20
    garden.rules.save()
    at_once(lambda _n: service.draw_up_dues(season=held.season, by=None, today=DAY), range(3))
    assert Due.objects.filter(kind=DueKind.PLOT).count() == 1

    coming = SeasonFactory(garden=garden, starts_on=date(2025, 1, 1), ends_on=date(2025, 12, 31))
    round = RenewalRound.objects.create(season=coming, opened_on=DAY, answer_by=DAY)
    verbs = [service.renew, service.free_plot, service.renew]
    answers = at_once(lambda verb: verb(round=round, assignment=held, on=DAY, by=person), verbs)
    assert sorted(type(answer).__name__ for answer in answers) == [
        "Renewal",
        "ValidationError",
        "ValidationError",
    ]
    assert coming.assignments.count() == (round.renewals.get().decision == "renewed")


@pytest.mark.django_db
def test_a_version_has_a_page_with_its_history(cast, as_user):
    version = in_force(cast.garden, by=cast.coordinator, en="By hand.")
    sign(version, cast.member)
    run = as_user(cast.coordinator)
    listed = text_of(run.get(reverse("plots:agreement_versions", args=["linden-row"])))
    assert "Version 1 May 1, 2024 English 1" in listed
    spanish = {"language": "es", "title": "Acuerdo", "body": "A mano."}
    address = reverse("plots:agreement_text_new", args=["linden-row", version.pk])
    page = text_of(run.post(address, spanish, follow=True))
    assert "español: Acuerdo" in page
    assert "A language was added to the agreement:" in page
    assert "language now español" in page
    assert "title now Acuerdo" in page
    assert "A version of the agreement was put in force" in page


@pytest.mark.django_db
def test_a_due_has_a_page_with_its_history_in_the_garden_s_money(cast, as_user):
    type(cast.garden.rules).objects.filter(garden=cast.garden).update(currency="€")
    owed = {"season": cast.assignment.season, "person": cast.member, "what": "key", "amount": 5}
    due = service.add_due(due=Due(garden=cast.garden, due_on=DAY, **owed), by=cast.coordinator)
    run, address = as_user(cast.coordinator), reverse("plots:due", args=["linden-row", due.pk])
    run.post(address, {"state": "waived"})
    page = text_of(run.get(address))
    assert "amount now €5" in page
    run.post(reverse("plots:change_undo", args=["linden-row", Change.objects.get(what="due-waived").pk]))
    due.refresh_from_db()
    assert due.state == "due"
