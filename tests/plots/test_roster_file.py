"""Reading people out of a spreadsheet, without a database."""

import pytest

from plots.roster_file import (
    Field,
    Known,
    Outcome,
    Problem,
    TableError,
    decoded,
    guessed,
    read_people,
    read_table,
)

KNOWN = Known(
    emails_here=frozenset({"hollis@example.org"}),
    names_here={"hollis": "hollis@example.org", "corin": ""},
    emails_elsewhere=frozenset({"stellan@example.org"}),
    accounts=frozenset({"hollis", "corin", "stellan"}),
    plots={
        "a1": ("A1", "held"),
        "a2": ("A2", "free"),
        "herb, north": ("Herb, north", "free"),
        "h": ("H", "other"),
    },
)


def people(text: str, known: Known = KNOWN):
    table = read_table(text)
    return read_people(table, guessed(table.titles), known)


@pytest.mark.parametrize("parted_by", [",", ";", "\t"])
def test_a_table_is_read_whatever_parts_its_cells(parted_by):
    text = parted_by.join(["Name", "E-mail"]) + "\r\n\r\n" + parted_by.join([" Ana  Ruiz ", "ana@x.org"])
    table = read_table("\ufeff" + text)
    assert (table.titles, table.rows) == (("Name", "E-mail"), ((3, ("Ana Ruiz", "ana@x.org")),))


@pytest.mark.parametrize("coding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_file_is_read_in_the_codings_of_spreadsheets(coding):
    assert "Núñez" in decoded("Name\nNúñez".encode(coding))


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "empty"),
        ("Name\n", "empty"),
        ("Name\n" + "x\n" * 5001, "too-long"),
        ("a," * 60 + "a\n1", "too-wide"),
    ],
)
def test_what_is_no_table_is_refused(text, code):
    with pytest.raises(TableError) as refused:
        read_table(text)
    assert refused.value.code == code


def test_a_line_number_is_that_of_the_file_even_after_cells_of_several_lines():
    (first, second) = people('Name,Address\n"Ana Ruiz","1 Elm\nRow"\nBo Li,')
    assert (first.number, first.address, second.number) == (2, "1 Elm Row", 4)


def test_first_and_last_names_make_a_name_unless_there_is_one():
    assert people("First name,Surname\nAna,Ruiz")[0].name == "Ana Ruiz"
    assert guessed(["Name", "Last name"]) == {0: Field.NAME}


def test_the_guard_against_formulas_is_taken_off_again():
    assert people("Name,Phone\nAna,'+1 308 555 0100")[0].phone == "+1 308 555 0100"


@pytest.mark.parametrize(
    ("row", "outcome"),
    [
        ("Ana,ana@x.org", Outcome.NEW),
        ("Ana,", Outcome.NEW),
        ("Stellan,STELLAN@example.org", Outcome.JOINS),
        ("Somebody,Hollis@Example.org", Outcome.HERE),
        ("CORIN,corin@x.org", Outcome.HERE),  # whose email is not known here
        ("Hollis,another@x.org", Outcome.NEW),  # two people of one name, told apart by email
    ],
)
def test_what_becomes_of_a_row(row, outcome):
    assert people(f"Name,Email\n{row}")[0].outcome == outcome


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("Name,Email\n,a@x.org", Problem("no-name")),
        ("Name,Email\nAna,nowhere", Problem("bad-email", "nowhere")),
        ("Name,Email\nAna,a@x.org\nBo,A@x.org", Problem("email-twice", "a@x.org")),
        ("Name\nAna\nana", Problem("name-twice", "Ana")),
        ("Name,Plot\nAna,A1", Problem("plot-held", "A1")),
        ("Name,Plot\nAna,A2 / Z9", Problem("plot-unknown", "Z9")),
        ("Name,Plot\nAna,h", Problem("plot-other", "h")),
        ("Name,Account\nAna,HOLLIS", Problem("account-taken", "HOLLIS")),
        ("Name,Account\nAna,a@b", Problem("account-has-at", "a@b")),
        ("Name,Phone\nAna," + "1" * 41, Problem("too-long", "1" * 40 + "…")),
    ],
)
def test_what_is_wrong_is_said_row_by_row(text, problem):
    line = people(text)[0]
    assert (line.problems, line.outcome) == ((problem,), Outcome.WRONG)


def test_a_label_with_a_comma_is_one_label_and_else_commas_part_them():
    assert people('Name,Plots\nAna,"herb, North"')[0].plots == ("herb, North",)
    assert people('Name,Plots\nAna,"A2, A2; A1"')[0].plots == ("A2", "A1")


def test_who_is_here_already_is_not_asked_about_plots():
    assert people("Name,Plot\nCorin,A1")[0].problems == ()
