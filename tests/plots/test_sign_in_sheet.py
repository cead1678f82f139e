import pytest

from plots.sign_in_sheet import Came, Fault, Known, find, read_lines

PEOPLE = [
    Known(1, "Đặng Thu Hà", "ha"),
    Known(2, "Βασιλική Καρρά", "vasiliki"),
    Known(3, "Tom Beckwith", "tom"),
    Known(4, "Tomasz Bell", "tomasz"),
    Known(5, "Żaneta Mączka", "zaneta"),
]


def read(text, **options):
    return read_lines(text, PEOPLE, usual=180, **options)


def test_lines_are_read_however_they_are_typed():
    text = "ha 2.5\n\nvasiliki 9-12\ntom beck 2 h 30\n zaneta maczka\n+ Pat Ashby, 1 1/2\n"
    assert read(text) == (
        [
            Came(1, 1, "", 150),
            Came(3, 2, "", 180),
            Came(4, 3, "", 150),
            Came(5, 5, "", 180),
            Came(6, None, "Pat Ashby", 90),
        ],
        [],
    )


@pytest.mark.parametrize(
    ("line", "fault"),
    [
        ("Quentin 2", Fault(2, "Quentin 2", "nobody")),
        ("t b 2", Fault(2, "t b 2", "several", ("Tom Beckwith", "Tomasz Bell"))),
        ("tom beckwith 2:75", Fault(2, "tom beckwith 2:75", "no-time")),
        ("+ 2", Fault(2, "+ 2", "no-time")),
        ("+", Fault(2, "+", "no-name")),
        ("thu 3", Fault(2, "thu 3", "twice", earlier=1)),
    ],
)
def test_a_line_that_cannot_be_read_says_why_and_spoils_no_other(line, fault):
    came, faults = read(f"ha 2\n{line}\nzaneta 1")
    assert ([one.line for one in came], faults) == ([1, 3], [fault])


def test_who_stands_on_the_sheet_already_is_not_counted_again():
    assert read("ha 2", taken=[1]) == ([], [Fault(1, "ha 2", "twice")])
    assert read("+ pat ashby", guests=["Pat Ashby"]) == ([], [Fault(1, "+ pat ashby", "twice")])


def test_one_guest_twice_is_noticed():
    assert [one.code for one in read("+ Pat 2\n+ pat 3")[1]] == ["twice"]


def test_a_whole_name_wins_over_the_beginning_of_another():
    assert [one.person for one in find("tom", PEOPLE)] == [3]
    assert [one.person for one in find("tom b", PEOPLE)] == [3, 4]
