"""Values for the addresses of the waiting list: somebody waits, has an offer, and is being asked."""

from datetime import date, timedelta

from django.utils import timezone

from plots.models import InterestAnswer, Offer, PlotChoice
from plots.service import ask_interest, place_link
from tests.factories import PlotFactory, WaitingFactory


def _entry(cast):
    return WaitingFactory(garden=cast.garden)


def _offer(cast):
    entry = _entry(cast)
    return Offer.objects.create(
        entry=entry,
        place=entry,
        plot=PlotFactory(garden=cast.garden),
        season=cast.assignment.season,
        begins_on=date(2024, 6, 1),
        ends_at=timezone.now() + timedelta(days=2),
    )


def _answer(cast):
    _entry(cast)
    ask_interest(garden=cast.garden, answer_by=cast.garden.today(), by=cast.coordinator)
    return InterestAnswer.objects.get()


def _token(entry) -> dict[str, object]:
    return {"token": place_link(entry).rstrip("/").rpartition("/")[2]}


def _open_to_all(cast) -> dict[str, object]:
    cast.garden.rules.sign_up_open = True
    cast.garden.rules.save()
    return {"slug": cast.garden.slug}


def _token_of_offer(cast) -> dict[str, object]:
    offer = _offer(cast)
    return {**_token(offer.entry), "pk": offer.pk}


def _token_of_answer(cast) -> dict[str, object]:
    answer = _answer(cast)
    return {**_token(answer.entry), "pk": answer.pk}


def _round_and_answer(cast) -> dict[str, object]:
    answer = _answer(cast)
    return {"pk": answer.round_id, "answer_pk": answer.pk}


WITHOUT_GARDEN = {
    "join": _open_to_all,
    **dict.fromkeys(("place", "place_leave"), lambda cast: _token(_entry(cast))),
    "place_offer": _token_of_offer,
    "place_interest": _token_of_answer,
}
MAKERS = {
    **dict.fromkeys(
        ("waiting_entry", "waiting_edit", "waiting_leave", "waiting_return"),
        lambda cast: {"pk": _entry(cast).pk},
    ),
    "choice_edit": lambda cast: {"pk": PlotChoice.objects.create(garden=cast.garden, name="half").pk},
    **dict.fromkeys(
        ("offer", "offer_answer", "offer_extend", "offer_send", "offer_told", "offer_withdraw"),
        lambda cast: {"pk": _offer(cast).pk},
    ),
    **dict.fromkeys(
        ("interest", "interest_close", "interest_send"), lambda cast: {"pk": _answer(cast).round_id}
    ),
    "interest_answer": _round_and_answer,
}
