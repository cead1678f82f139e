"""The demonstration's season turn: an agreement half signed, dues half paid, renewals partly answered."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from itertools import cycle

from plots.models import AgreementText, Garden, RenewalRound, Season, SignedHow, User, WishChoice
from plots.queries import asked_in
from plots.service import (
    add_due,
    answer_renewal,
    draft_version,
    draw_up_dues,
    keep_season,
    open_round,
    put_in_force,
    settle_due,
    sign,
)

AGREEMENT = {
    "en": (
        "What we agree on",
        "I garden my plot from April to October and look after its half of the path.\n\n"
        "I water by hand and turn the tap off. I use no sprinkler and no timer.\n\n"
        "I do my hours of work for the garden, or tell a coordinator early when I cannot.\n\n"
        "When I am ill or away I say so, and somebody waters for me.\n\n"
        "I pick only from my own plot and from the beds marked for everybody.",
    ),
    "es": (
        "Lo que acordamos",
        "Cultivo mi parcela de abril a octubre y cuido mi mitad del camino.\n\n"
        "Riego a mano y cierro la llave. No uso aspersor ni temporizador.\n\n"
        "Hago mis horas de trabajo para el huerto, o aviso pronto cuando no puedo.\n\n"
        "Si estoy enfermo o de viaje, lo digo y alguien riega por mí.\n\n"
        "Cosecho solo en mi parcela y en los bancales marcados para todos.",
    ),
    "uk": (
        "Про що ми домовилися",
        "Я обробляю свою ділянку з квітня по жовтень і доглядаю свою половину стежки.\n\n"
        "Поливаю вручну і закриваю кран. Без розпилювача і таймера.\n\n"
        "Відпрацьовую свої години для саду або завчасно кажу, якщо не можу.\n\n"
        "Коли хворію або їду, кажу про це, і хтось поливає за мене.\n\n"
        "Збираю врожай лише зі своєї ділянки та зі спільних грядок.",
    ),
}
ANSWERS = [
    (WishChoice.KEEP, ""),
    (WishChoice.KEEP, ""),
    (WishChoice.MOVE, "A raised bed, if one comes free."),
    (WishChoice.KEEP, ""),
    None,
    (WishChoice.LEAVE, "Thank you for five good summers."),
]


def turn_season(garden: Garden, people: list[User], today: date) -> None:
    """Everything here goes through the services that the pages use; `people` begin with the coordinator."""
    coordinator = people[0]
    garden.rules.dues_per_plot = Decimal(35)
    garden.rules.save(update_fields=["dues_per_plot"])
    season = garden.seasons.get(starts_on__lte=today, ends_on__gte=today)
    _agree(garden, people, today)
    _owe(garden, season, coordinator, today)
    year = today.year + 1
    coming = Season(garden=garden, name=str(year), starts_on=date(year, 1, 1), ends_on=date(year, 12, 31))
    keep_season(season=coming, by=coordinator)
    asked_on, answer_by = today - timedelta(days=30), today - timedelta(days=3)
    round = RenewalRound(season=coming, opened_on=asked_on, answer_by=answer_by, grace_days=14)
    open_round(round=round, by=coordinator)
    for held, answer in zip(asked_in(round).order_by("plot__label"), cycle(ANSWERS), strict=False):
        if answer is not None:
            wish, note = answer
            day = asked_on + timedelta(days=held.plot_id % 20)
            answer_renewal(round=round, assignment=held, wish=wish, note=note, on=day, by=held.holder)


def _agree(garden: Garden, people: list[User], today: date) -> None:
    version = draft_version(garden=garden)
    for language, (title, body) in AGREEMENT.items():
        AgreementText.objects.create(version=version, language=language, title=title, body=body)
    version = put_in_force(version=version, on=today - timedelta(days=200), by=people[0])
    texts = cycle(version.texts.all())
    for number, (person, text) in enumerate(zip(people[:-3], texts, strict=False)):
        how = SignedHow.PAPER if number % 3 == 2 else SignedHow.SCREEN
        by = people[0] if how == SignedHow.PAPER else person
        day = today - timedelta(days=190 - number)
        sign(text=text, person=person, name=person.name, how=how, signed_on=day, by=by)


def _owe(garden: Garden, season: Season, coordinator: User, today: date) -> None:
    draw_up_dues(season=season, by=coordinator, today=season.starts_on)
    for number, due in enumerate(garden.dues.all()):
        state = "waived" if number == 4 else "due" if number % 4 == 3 else "paid"
        settle_due(due=due, state=state, on=min(today, due.due_on), by=coordinator)
    key = garden.dues.model(
        garden=garden, season=season, person=coordinator, what="lost shed key", amount=10, due_on=today
    )
    add_due(due=key, by=coordinator)
