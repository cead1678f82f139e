"""Handouts: single topics, the pack of a workshop, and what is needed at its door."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from django.db.models import Count
from django.utils.formats import date_format, time_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crops.models import Crop, Planting, Workshop
from crops.queries import crops_for
from plots.month_days import parse_month_day
from plots.powers import Power
from schedules.place import Place
from schedules.reports.document import Page
from schedules.seasons import Hemisphere
from schedules.service.place import guest_place, place_of
from schedules.service.print_table.table import Asked, Group, GuestPlace, Kind, Made, trusted
from schedules.wording.topics import TOPICS, Question, Topic

MOST_CROPS = 30  # as many as a topic has room for on two sides
SIGN_IN_LINES, SPARE_LINES = 20, 6
WRITING_ROW = 30.0
MOST_QUESTIONS = 8  # of one side
IN_ONE_COLUMN = 12


def topic_sheet(topic: Topic, asked: Asked) -> Made:
    """One topic for the garden, or for a guest's own place."""
    place = _place(asked, asked.choices.get("crops") or [])
    page = Page(asked.head(str(topic.name), note=place.record), titled=False)
    topic.add_to(page, place)
    return Made(document=page.document())


def pack(asked: Asked) -> Made:
    """Every sheet of a workshop in one file."""
    workshop: Workshop = asked.choices["workshop"]
    place = _place(asked, list(workshop.crops.all()))
    topics = _topics(workshop)
    page = Page(asked.head(workshop.title, note=place.record), titled=False)
    if workshop.title_page or not topics:
        _title_page(page, workshop, topics, place)
    for topic in topics:
        topic.add_to(page, place)
    return Made(document=page.document())


def _topics(workshop: Workshop) -> list[Topic]:
    return [TOPICS[code] for code in workshop.topics if code in TOPICS]


def _title_page(page: Page, workshop: Workshop, topics: Sequence[Topic], place: Place) -> None:
    page.next_sheet(workshop.title, when_and_where(workshop))
    page.text(workshop.note)
    if place.guest:
        page.text(_("The sheets are made for %(place)s.") % {"place": place.name})
    page.text(place.record + ".")
    if topics:
        page.heading(_("In this pack"))
        _list_of(page, topics)
    else:
        page.text(_("No sheets are chosen yet."))
    if place.crops:
        page.heading(_("The crops it tells of"))
        page.quiet("; ".join(crop.name for crop in place.crops) + ".")
    # On the back, so that each topic after it is one sheet where both sides are printed.
    page.new_page()
    page.notes(_("Notes"), (_("What I heard"), _("What I will try")), (1, 1))


def _list_of(page: Page, topics: Sequence[Topic]) -> None:
    """One below the other; a long list in two columns, so that the title page stays one page."""
    if len(topics) <= IN_ONE_COLUMN:
        page.points([str(topic.name) for topic in topics], numbered=True)
        return
    items = [f"{number}. {topic.name}" for number, topic in enumerate(topics, 1)]
    half = -(-len(items) // 2)
    page.table(zip_longest(items[:half], items[half:], fillvalue=""), shares=(1, 1), name=_("In this pack"))


def when_and_where(workshop: Workshop) -> str:
    """Day, hours and place in a line."""
    parts = [date_format(workshop.on, "l, N j, Y")]
    if workshop.starts_at:
        begins, ends = time_format(workshop.starts_at), time_format(workshop.ends_at or workshop.starts_at)
        parts.append(begins if workshop.ends_at is None else f"{begins} – {ends}")
    return ", ".join(filter(None, [*parts, workshop.place]))


def sign_in(asked: Asked) -> Made:
    """For the door: it asks for nothing that a person might not want to write on a list."""
    workshop: Workshop = asked.choices["workshop"]
    page = Page(asked.head(workshop.title, subtitle=when_and_where(workshop)))
    page.text(
        _("Welcome. Write as much as you like, or nothing. We count the lines; the sheet is thrown away"
          " after that.")
    )  # fmt: skip
    page.text(
        _("If you write how to reach you, you agree that this garden keeps that and tells you of its next"
          " workshop. Tell us when you no longer want it.")
    )  # fmt: skip
    count = max(SIGN_IN_LINES, (workshop.expected or 0) + SPARE_LINES)
    page.table(
        [(str(number), "", "", "", "") for number in range(1, count + 1)],
        titles=(
            "",
            _("Name"),
            _("First time here?"),
            _("How did you hear of it?"),
            _("Tell me of the next one at"),
        ),
        shares=(0.5, 3, 1.3, 2.4, 3),
        row_height=WRITING_ROW,
        grid=True,
    )
    page.quiet(
        _("To whoever keeps this sheet: count the lines, and write the number down as the people who came.")
    )
    return Made(document=page.document())


def name_tags(asked: Asked) -> Made:
    """A tag for everybody named, and blank ones for everybody else."""
    from schedules.reports.name_tags import NameTags, name_tags_pdf, tags_to_fill  # lazy: reportlab

    workshop: Workshop = asked.choices["workshop"]
    names = workshop.named
    blank = tags_to_fill(len(names), workshop.expected or 0, asked.paper)
    page = Page(asked.head(_("Name tags"), subtitle=workshop.title))
    page.points(names)
    page.text(ngettext("%(count)d blank tag.", "%(count)d blank tags.", blank) % {"count": blank})
    page.quiet(_("They are cut apart along the lines: the lines are the same on all sheets."))
    tags = NameTags(asked.garden.name, workshop.title, asked.paper, asked.language, names, blank)
    return Made(document=page.document(), laid_out=lambda: name_tags_pdf(tags))


def quiz(asked: Asked) -> Made:
    """Questions of the chosen sheets on one side, answers on the other."""
    workshop: Workshop = asked.choices["workshop"]
    place = _place(asked, list(workshop.crops.all()))
    topics = _topics(workshop) or list(TOPICS.values())
    questions = list(_chosen(topics, place))
    page = Page(asked.head(_("Quiz: %(workshop)s") % {"workshop": workshop}, note=place.record), titled=False)
    page.next_sheet(_("What do you know now?"), workshop.title)
    page.quiet(_("One answer of each is right. Turn the sheet over for the answers."))
    for number, question in enumerate(questions, start=1):
        page.text(f"{number}. {question.text}")
        choices = [_choice(n, text) for n, text in enumerate(question.choices)]
        page.table([choices], shares=[1.0] * len(choices))
    page.notes(_("What I will try at home"), (_("What"), _("When")), (3, 1))
    page.next_sheet(_("Answers"), workshop.title)
    page.table(
        [
            (f"{number}.", _choice(one.right, one.choices[one.right]), one.why)
            for number, one in enumerate(questions, start=1)
        ],
        titles=("", _("Right"), _("Why")),
        shares=(0.5, 4, 5.5),
    )
    return Made(document=page.document())


def _choice(number: int, text: str) -> str:
    return f"{'abcdef'[number]}) {text}"


def _chosen(topics: Sequence[Topic], place: Place) -> Iterator[Question]:
    """One of each topic in turn, then their second ones, until the side is full."""
    asked = [list(topic.questions(place)) for topic in topics]
    rounds = [own[n] for n in range(3) for own in asked if n < len(own)]
    yield from rounds[:MOST_QUESTIONS]


def _place(asked: Asked, crops: Sequence[Crop]) -> Place:
    """Where the sheet is made for; without chosen crops it tells of the usual ones."""
    garden, guest = asked.garden, asked.choices.get("place")
    year = asked.choices.get("year")
    crops = crops or usual_crops(asked)
    if not isinstance(guest, GuestPlace):
        return place_of(garden, crops=crops, today=asked.today, year=year)
    last, first = parse_month_day(guest.last_frost), parse_month_day(guest.first_frost)
    return guest_place(
        guest.name or _("Your own place"),
        last=last,
        first=first,
        crops=crops,
        units=garden.units,
        hemisphere=Hemisphere.of_frosts(last, first, usual=Hemisphere.of_latitude(garden.latitude)),
        today=asked.today,
        year=year,
    )


def usual_crops(asked: Asked) -> list[Crop]:
    """What most plots of the garden plan this year; where nobody plans, what most sources tell of."""
    known = crops_for(asked.garden)
    planned = Planting.objects.filter(
        plot__garden=asked.garden, removed_at=None, year__in=(asked.today.year, asked.today.year + 1)
    )
    most = planned.values("crop").annotate(times=Count("pk")).order_by("-times", "crop")
    keys = [row["crop"] for row in most[:MOST_CROPS]]
    if not keys:
        told = known.filter(perennial=False).annotate(told=Count("fact_sources__sources", distinct=True))
        keys = list(told.order_by("-told", "pk").values_list("pk", flat=True)[:MOST_CROPS])
    return [crop for crop in known if crop.pk in set(keys)]


def _topic_kind(topic: Topic) -> Kind:
    return Kind(
        code=topic.kind,
        name=topic.name,
        about=topic.about,
        group=Group.HANDOUTS,
        make=lambda asked: topic_sheet(topic, asked),
        asks=("place", "crops", "year"),
    )


_RUNS = trusted(Power.WORKDAYS)
KINDS = (
    Kind(
        code="workshop-pack",
        name=gettext_lazy("Pack of a workshop"),
        about=gettext_lazy("The chosen sheets in their order, in one file, with a title page if you like."),
        group=Group.WORKSHOPS,
        make=pack,
        asks=("workshop", "place"),
        may=_RUNS,
        several=True,
    ),
    Kind(
        code="workshop-sign-in",
        name=gettext_lazy("Sign-in sheet of a workshop"),
        about=gettext_lazy("Names, first time or not, how they heard of it; nothing that is private."),
        group=Group.WORKSHOPS,
        make=sign_in,
        asks=("workshop",),
        may=_RUNS,
    ),
    Kind(
        code="name-tags",
        name=gettext_lazy("Name tags"),
        about=gettext_lazy("For who is expected, and blank ones for who comes by; to be cut apart."),
        group=Group.WORKSHOPS,
        make=name_tags,
        asks=("workshop",),
        may=_RUNS,
        large=False,
        kept=False,
        private=True,
    ),
    Kind(
        code="quiz",
        name=gettext_lazy("Quiz with answers"),
        about=gettext_lazy("One side of questions from the chosen sheets, the answers on the other side."),
        group=Group.WORKSHOPS,
        make=quiz,
        asks=("workshop", "place"),
        may=_RUNS,
    ),
    *map(_topic_kind, TOPICS.values()),
)
