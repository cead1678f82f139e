"""Stakes: what a code opens for whom, guessing, and choosing what is printed."""

from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from plots.models import Change, PlotKind
from plots.service import make_link
from plots.throttle import guesses
from tests.factories import CropFactory, PlantingFactory, PlotFactory

LOGS = "/g/linden-row/print/log-sheets.pdf"


def at(plot) -> str:
    return reverse("schedules:at_plot", args=[plot.stake_code])


def test_a_visitor_reads_one_line_and_nothing_else(cast, as_user):
    PlantingFactory(plot=cast.plot, crop=CropFactory(name="Purple kohlrabi"))
    visitor = as_user(None)
    cast.garden.public_line = "Please look and don't pick."
    cast.garden.save()
    page = visitor.get(at(cast.plot)).content.decode()
    assert [word in page for word in ("Plot A1", "Linden Row", "Please look and don&#x27;t pick.")] == [
        True
    ] * 3
    assert not [word for word in ("Hollis", "Corin", "kohlrabi", "linden-row") if word in page]
    cast.plot.public_line = "Grown by beginners"
    cast.plot.save()
    # Also off by case and hyphens, as people type.
    code = cast.plot.stake_code.lower()
    page = visitor.get(reverse("schedules:at_plot", args=[f"{code[:3]}-{code[3:]}"])).content.decode()
    assert ("Grown by beginners" in page, "Please look" in page) == (True, False)


def test_the_code_opens_the_log_for_who_may_write_it_and_one_line_for_others(cast, as_user):
    log = f"/g/linden-row/log/?plots={cast.plot.pk}"
    found = {}
    for name in ("holder", "co_gardener", "coordinator", "deputy", "member", "helper", "stranger"):
        response = as_user(getattr(cast, name)).get(at(cast.plot))
        found[name] = response.headers.get("Location", response.status_code)
    logs = dict.fromkeys(("holder", "co_gardener", "coordinator", "deputy"), log)
    assert found == {**logs, "member": 200, "helper": 200, "stranger": 200}
    page = as_user(cast.member).get(at(cast.plot)).content.decode()
    assert ('class="actions"' in page, "Hollis" in page) == (False, False)
    bed = PlotFactory(garden=cast.garden, label="Herbs", kind=PlotKind.COMMUNAL)
    assert as_user(cast.member).get(at(bed)).status_code == 302


def test_who_signs_in_from_there_lands_at_the_plot(cast, as_user):
    phone = as_user(None)
    way = phone.get(at(cast.plot)).content.decode().partition('href="/sign-in/')[2].partition('"')[0]
    assert way == f"?next={at(cast.plot)}"
    phone.get(f"/sign-in/{way}")
    link = make_link(user=cast.holder).partition("//")[2].partition("/")[2]
    landed = phone.post(f"/{link}")
    assert landed.headers["Location"] == at(cast.plot)
    assert phone.get(landed.headers["Location"]).headers["Location"].endswith(f"?plots={cast.plot.pk}")
    assert "wanted" not in {name for name, cookie in phone.cookies.items() if cookie.value}


@pytest.mark.parametrize("elsewhere", ["https://elsewhere.example/", "//elsewhere.example/"])
def test_a_link_leads_to_no_other_site(elsewhere, cast, as_user):
    phone = as_user(None)
    phone.cookies["wanted"] = elsewhere
    link = make_link(user=cast.holder).partition("//")[2].partition("/")[2]
    assert phone.post(f"/{link}").headers["Location"] == "/"


def test_an_old_stake_and_one_of_a_plot_given_up_open_nothing(cast, as_user):
    run, visitor, old = as_user(cast.coordinator), as_user(None), at(cast.plot)
    run.post(reverse("plots:stake_renew", args=["linden-row", cast.plot.pk]))
    cast.plot.refresh_from_db()
    assert at(cast.plot) != old
    assert [visitor.get(way).status_code for way in (old, at(cast.plot))] == [404, 200]
    change = Change.objects.get(what="stake-renewed")
    assert cast.plot.stake_code not in f"{change.before}{change.after}"  # a history is read by others, too
    cast.plot.retired_on = cast.garden.today()
    cast.plot.save()
    assert visitor.get(at(cast.plot)).status_code == 404


def test_guesses_are_counted_and_then_nothing_opens(cast, as_user):
    visitor = as_user(None)
    for _guess in range(guesses("").limit):
        assert visitor.get("/at/CDF34MRT7/").status_code == 404
    assert visitor.get("/at/CDF34MRT9/").status_code == 429
    assert visitor.get(at(cast.plot)).status_code == 429
    elsewhere = {"REMOTE_ADDR": "203.0.113.9"}
    assert visitor.get(at(cast.plot), **elsewhere).status_code == 200


@pytest.fixture
def garden_of_seven(cast):
    for n in range(6):
        PlotFactory(garden=cast.garden, label=f"B{n}", left_m=10 * n, top_m=0)
    return cast.garden


def test_plots_and_labels_are_chosen_shown_and_printed(garden_of_seven, cast, as_user):
    run = as_user(cast.coordinator)
    page = reverse("schedules:print_kind", args=["linden-row", "stakes"])
    pdf = reverse("schedules:print_file", args=["linden-row", "stakes", "pdf"])
    form = run.get(page).context["form"]
    row, whole = (value for value, _text in form.fields["rows"].choices)

    wrong = run.get(page, {"asked": "1", "labels": "letter-6", "first": "7"})
    assert wrong.status_code == 422
    assert wrong.context["form"].errors == {
        "plots": ["Choose at least one plot."],
        "first": ["Such a sheet has only 6 labels."],
    }
    assert run.get(pdf, {"labels": "letter-6", "first": "7", "plots": "0"}).status_code == 302
    assert run.get(page, {"labels": "letter-6", "plots": "x"}).status_code == 422

    chosen = {"labels": "letter-6", "first": "5", "rows": row, "plots": cast.plot.pk}
    assert "Plot" in run.get(page, chosen).content.decode()
    printed = run.get(pdf, chosen)
    texts = [page.extract_text() for page in PdfReader(BytesIO(printed.content)).pages]
    assert [sum(f"B{n}" in text.split() for n in range(6)) for text in texts] == [2, 4]
    assert printed.headers["Cache-Control"] == "private, no-store"

    both_sides = run.get(pdf, {"labels": "letter-cards-4", "rows": whole, "backs": "on", "first": "9"})
    assert len(PdfReader(BytesIO(both_sides.content)).pages) == 4
    sheets = run.get(LOGS, {"rows": whole})
    texts = [page.extract_text().splitlines()[0] for page in PdfReader(BytesIO(sheets.content)).pages]
    assert texts == [f"Plot {label}" for label in ("B0", "B1", "B2", "B3", "B4", "B5", "A1")]


def test_who_gardens_a_plot_prints_its_log_sheet(cast, as_user):
    PlantingFactory(plot=cast.plot, crop=CropFactory(name="Kohlrabi"), year=cast.garden.today().year)
    content = as_user(cast.holder).get(LOGS, {"plots": cast.plot.pk}).content
    (page,) = PdfReader(BytesIO(content)).pages
    text = page.extract_text()
    assert ("planned here: Kohlrabi, spring and summer." in text, "Hollis" in text) == (
        True,
        False,
    )
    others = as_user(cast.member).get(LOGS, {"plots": cast.plot.pk})
    assert others.status_code == 302  # back to choosing, where this plot is not offered


def test_a_sheet_costs_the_same_queries_for_one_plot_and_for_all(
    garden_of_seven, cast, as_user, django_assert_num_queries
):
    run = as_user(cast.coordinator)
    run.get(LOGS, {"plots": cast.plot.pk})
    for plots in ([cast.plot.pk], list(cast.garden.plots.values_list("pk", flat=True))):
        with django_assert_num_queries(9):
            run.get(LOGS, {"plots": plots})
