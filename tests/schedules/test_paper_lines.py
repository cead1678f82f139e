"""Lines typed in from paper: what they mean, what is carried on from above, and which slips are told."""

from datetime import date

from plots.sign_in_sheet import Known
from schedules.paper_lines import Book, Fault, Line, Read, parse_day, read_lines

BOOK = Book(
    today=date(2024, 5, 20),
    month_first=True,
    months=["January", "February", "March", "April", "May", "June", "July", "August"],
    plots=[Known(1, "12"), Known(2, "14"), Known(3, "Communal bed 12"), Known(4, "A1"), Known(5, "A10")],
    people=[Known(1, "Đặng Thu Hà"), Known(2, "Tom Beckwith", "tom.b"), Known(3, "Tomás Beck")],
    works=[
        ("water", "watered"), ("harvest", "picked"), ("weed", "weeded"), ("sow", "sowed"), ("hours", "hours"),
        ("support", "supported"), ("scout", "scouted"), ("note", "note"), ("thin", "thinned"),
    ],
    units=[
        ("min", ["minutes at the hose", "min"]), ("gal", ["gallons", "gal"]), ("mm", ["millimetres", "mm"]),
        ("lb", ["pounds", "lb"]), ("g", ["grams", "g"]), ("pcs", ["pieces", "pcs"]),
    ],
    crops=[Known(1, "Carrot"), Known(2, "Tomato"), Known(3, "Chard")],
    plantings={
        1: [Known(71, "Tomato Sungold spring"), Known(72, "Carrot spring"), Known(73, "Carrot autumn")],
    },
    holders={1: 1, 2: 2},
)  # fmt: skip


def read(*typed: dict[str, str]) -> list[Read]:
    return read_lines([Line(number, **line) for number, line in enumerate(typed, start=1)], BOOK)


def faults(*typed: dict[str, str]) -> list[tuple[Fault, ...]]:
    return [line.faults for line in read(*typed)]


def test_short_words_are_enough_and_what_repeats_is_left_out():
    assert read(
        {"plot": "12", "day": "5/4", "work": "w", "amount": "10 min", "person": "tom be", "note": "dry"}
        | {"person": "tom.b"},
        {"work": "p", "what": "toma", "amount": "2 1/2lb", "note": '"'},
        {},
        {"work": "so", "what": "car au 2", "day": "18"},
        {"plot": "14", "work": "hours", "amount": "1:30"},
        {"plot": '"', "work": '"', "amount": '"', "person": "dang"},
    ) == [
        Read(1, plot=1, day=date(2024, 5, 4), work="water", amount=10, unit="min", person=2, note="dry"),
        Read(
            2, plot=1, day=date(2024, 5, 4), work="harvest", planting=71, amount=2.5, unit="lb", person=2,
            note="dry",
        ),
        Read(4, plot=1, day=date(2024, 5, 18), work="sow", planting=73, succession=2, person=2),
        Read(5, plot=2, day=date(2024, 5, 18), work="hours", minutes=90, person=2),
        Read(6, plot=2, day=date(2024, 5, 18), work="hours", minutes=90, person=1),
    ]  # fmt: skip


def test_at_another_plot_it_is_its_holder_who_did_it():
    lines = read({"plot": "14", "day": "1", "work": "we"}, {"plot": "12", "work": "we"}, {"work": "we"})
    assert [line.person for line in lines] == [2, 1, 1]


SLIPS = [
    ({"plot": "13"}, "plot", "no-plot", ()),
    ({"plot": "A"}, "plot", "several", ("A1", "A10")),
    ({"plot": ""}, "plot", "which-plot", ()),
    ({"day": "31/31"}, "day", "no-day", ()),
    ({"day": ""}, "day", "which-day", ()),
    ({"work": "x"}, "work", "no-work", ()),
    ({"work": "s"}, None, "", ()),
    ({"work": "su"}, None, "", ()),
    ({"work": ""}, "work", "which-work", ()),
    ({"work": "so", "what": "carrot"}, "what", "several", ("Carrot spring", "Carrot autumn")),
    ({"work": "so", "what": "kale"}, "what", "no-planting", ()),
    ({"what": "carrot"}, "what", "whole-plot", ()),
    ({"amount": "ten min"}, "amount", "no-amount", ()),
    ({"amount": "1,000 gal"}, "amount", "no-amount", ()),
    ({"amount": "10"}, "amount", "which-unit", ("minutes at the hose", "gallons", "millimetres")),
    ({"amount": "10 m"}, "amount", "several", ("minutes at the hose", "millimetres")),
    ({"amount": "3 lb"}, "amount", "no-unit", ("minutes at the hose", "gallons", "millimetres")),
    ({"work": "h", "amount": "long"}, "amount", "no-time", ()),
    ({"work": "h", "amount": ""}, "amount", "how-long", ()),
    ({"person": "tom"}, "person", "several", ("Tom Beckwith", "Tomás Beck")),
    ({"person": "zoe"}, "person", "no-person", ()),
    ({"plot": "a10", "person": ""}, "person", "which-person", ()),
    ({"work": "sc"}, "note", "what-seen", ()),
]  # fmt: skip


def test_what_cannot_be_read_is_told_beside_its_field():
    good = {"plot": "12", "day": "5/4", "work": "w", "amount": "", "person": "ha"}
    wrong = {}
    for typed, where, code, names in SLIPS:
        line = {**good, **typed}
        expected = (Fault(where, code, line.get(where, ""), names),) if where else ()
        if (got := faults(line)) != [expected]:
            wrong[str(typed)] = got
    assert wrong == {}


def test_a_crop_that_is_in_no_plan_is_named_all_the_same():
    (line,) = read({"plot": "12", "day": "5/4", "work": "p", "what": "chard", "amount": "300g"})
    assert (line.planting, line.crop, line.amount, line.unit) == (None, 3, 300, "g")


def test_a_slip_is_told_once_where_it_was_typed():
    slipped = {"plot": "13", "day": "5/40", "work": "w", "person": "tom"}
    lines = read(slipped, {"work": "we"}, {"work": '"', "plot": "12"})
    assert [[fault.where for fault in line.faults] for line in lines] == [["plot", "day", "person"], [], []]
    assert [line.clear for line in lines] == [False, False, False]


def test_what_repeats_but_means_nothing_here_is_told():
    lines = read(
        {"plot": "12", "day": "1", "work": "p", "what": "sungold"},
        {"plot": "14", "work": '"', "what": '"'},
    )
    assert lines[1].faults == (Fault("what", "no-planting", "sungold"),)


DAYS = [
    ("21", date(2024, 4, 21)), ("31", date(2024, 3, 31)), ("12/30", date(2023, 12, 30)),
    ("2/29", date(2024, 2, 29)), ("29.2.23", None), ("2024-05-04", date(2024, 5, 4)),
    ("4.5.", date(2024, 5, 4)), ("april 9", date(2024, 4, 9)), ("ju 9", None),
    ("9 jun 2023", date(2023, 6, 9)),
    ("5/4/2031", date(2031, 5, 4)), ("0", None), ("1/2/3/4", None), ("12345", None), ("5/4 x y", None),
    ("\N{ARABIC-INDIC DIGIT THREE}", date(2024, 5, 3)), ("x", None), ("2024-05", None),
]  # fmt: skip


def test_days_without_a_year_are_the_last_such():
    got = {typed: parse_day(typed, BOOK.today, month_first=True, months=BOOK.months) for typed, _day in DAYS}
    assert got == dict(DAYS)
    assert parse_day("5/4", BOOK.today, month_first=False) == date(2024, 4, 5)
