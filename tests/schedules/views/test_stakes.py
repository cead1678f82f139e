"""Stakes: what a code opens for whom, guessing, and choosing what is printed."""

from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from plots.models import Change, PlotKind
from plots.service import make_link
from plots.throttle import guesses
from tests.factories import CropFactory, PlantingFactory, PlotFactory


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


def test_plots_and_paper_are_chosen_shown_and_printed(garden_of_seven, cast, as_user):
    run = as_user(cast.coordinator)
    page, pdf = (reverse(f"schedules:{name}", args=["linden-row"]) for name in ("stakes", "stakes_pdf"))
    form = run.get(page).context["form"]
    row, whole = (value for value, _text in form.fields["rows"].choices)
    assert "Open the PDF" not in run.get(page).content.decode()

    wrong = run.get(page, {"what": "letter-6", "first": "7"})
    assert wrong.status_code == 422
    assert wrong.context["form"].errors == {
        "plots": ["Choose at least one plot."],
        "first": ["Such a sheet has only 6 labels."],
    }
    assert run.get(pdf, {"what": "letter-6", "first": "7"}).status_code == 422
    assert run.get(page, {"what": "letter-6", "plots": "x"}).status_code == 422

    shown = run.get(page, {"what": "letter-6", "first": "5", "rows": row, "plots": cast.plot.pk})
    assert "7 plots, 2 sheets of paper" in shown.content.decode()
    printed = run.get(shown.context["pdf"])
    texts = [page.extract_text() for page in PdfReader(BytesIO(printed.content)).pages]
    assert [sum(f"B{n}" in text.split() for n in range(6)) for text in texts] == [2, 4]
    assert printed.headers["Cache-Control"] == "private, no-store"

    both_sides = run.get(pdf, {"what": "letter-cards-4", "rows": whole, "backs": "on", "first": "9"})
    assert len(PdfReader(BytesIO(both_sides.content)).pages) == 4
    sheets = run.get(pdf, {"what": "log-sheets-large", "rows": whole})
    texts = [page.extract_text().splitlines()[0] for page in PdfReader(BytesIO(sheets.content)).pages]
    assert texts == [f"Plot {label}" for label in ("B0", "B1", "B2", "B3", "B4", "B5", "A1")]


def test_who_gardens_a_plot_prints_its_log_sheet(cast, as_user):
    PlantingFactory(plot=cast.plot, crop=CropFactory(name="Kohlrabi"), year=cast.garden.today().year)
    sheet = reverse("schedules:log_sheet_pdf", args=["linden-row", cast.plot.pk])
    content = as_user(cast.holder).get(sheet, {"large": "1"}).content
    (page,) = PdfReader(BytesIO(content)).pages
    text = page.extract_text()
    assert ("Growing here: Kohlrabi, spring and summer." in text, "Hollis" in text) == (True, False)


def test_a_sheet_costs_the_same_queries_for_one_plot_and_for_all(
    garden_of_seven, cast, as_user, django_assert_num_queries
):
    run = as_user(cast.coordinator)
    pdf = reverse("schedules:stakes_pdf", args=["linden-row"])
    run.get(pdf, {"what": "log-sheets", "plots": cast.plot.pk})
    for plots in ([cast.plot.pk], list(cast.garden.plots.values_list("pk", flat=True))):
        with django_assert_num_queries(8):
            run.get(pdf, {"what": "log-sheets", "plots": plots})
