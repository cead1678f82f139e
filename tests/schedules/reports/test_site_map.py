from datetime import date
from io import BytesIO

import pytest
from pypdf import PdfReader

from plots.sitemap.drawing import PlotDrawn, SiteDrawn, site_sketch
from plots.sitemap.rows import Rows, row_plots
from plots.sketch import Sketch
from schedules.reports.document import Head
from schedules.reports.setting import to_pdf
from schedules.reports.site_map import scale_sentence, site_map

FOOT = 0.3048


def sheet(rows, paper="letter", units="us", *, large=False):
    """The pages of the sheet of a garden laid out in rows."""
    plots = [PlotDrawn(plot.label, plot.label, plot.label, plot.box) for plot in row_plots(rows)]
    sketch = site_sketch(SiteDrawn(plots, [], bar=(20 * FOOT, "20 ft")))
    head = Head(
        "Linden Row", "Map of Linden Row", paper, "en", date(2024, 5, 1), subtitle="Plots.", large=large
    )
    key = [(Sketch(0, 0, 3, 1.7, ()), "plot")] * 8
    return PdfReader(BytesIO(to_pdf(site_map(head, sketch, key, units=units)))).pages


def test_sixty_plots_stand_on_one_page_with_their_labels_and_a_scale():
    [page] = sheet(Rows(6, 10, 10 * FOOT, 20 * FOOT, path=4 * FOOT))
    text = page.extract_text()
    assert {"A1", "C7", "F10"} <= set(text.split())
    assert "Scale: 1 inch on paper is 25 feet." in text


def test_a_wide_garden_is_laid_across_the_paper():
    [page] = sheet(Rows(1, 30, 3, 6), paper="a4", units="metric")
    assert page.mediabox.width > page.mediabox.height


@pytest.mark.parametrize("rows", [Rows(1, 1, 1, 1), Rows(25, 40, 3, 6, path=1), Rows(200, 1, 3, 10)])
def test_any_garden_fits_on_one_page(rows):
    assert len(sheet(rows, paper="a4", units="metric")) == 1


def test_in_large_print_it_lies_on_sheets_to_be_put_together_with_every_label_large_and_whole():
    rows = Rows(6, 10, 4 * FOOT, 12 * FOOT, path=4 * FOOT)
    pages = sheet(rows, paper="a4", units="metric", large=True)
    assert 1 < len(pages) <= 31
    found = []
    for number, page in enumerate(pages):
        width, height = page.mediabox[2:]

        def note(text, within, place, _font, size, number=number, width=width, height=height):
            x = place[4] * within[0] + place[5] * within[2] + within[4]
            y = place[4] * within[1] + place[5] * within[3] + within[5]
            if text.strip() and 40 < x < width - 40 and 60 < y < height - 40:
                scale = (within[0] ** 2 + within[1] ** 2) ** 0.5
                found.append((text.strip(), number, size * scale))

        page.extract_text(visitor_text=note)
    seen = {text for text, number, _size in found if number}
    assert {f"{row}{place}" for row in "ABCDEF" for place in range(1, 11)} <= seen
    assert min(size for _text, _number, size in found) >= 17.9
    assert "Part 1 of" in pages[1].extract_text()


def test_an_empty_garden_has_a_sheet_that_says_so():
    head = Head("Linden Row", "Map of Linden Row", "a4", "en", date(2024, 5, 1), subtitle="0 plots.")
    empty = site_map(head, site_sketch(SiteDrawn([], [])), [], units="us")
    [page] = PdfReader(BytesIO(to_pdf(empty))).pages
    assert "Nothing stands on the map yet." in page.extract_text()


def test_a_scale_is_said_as_a_ruler_reads_it():
    assert scale_sentence(240, "us") == "Scale: 1 inch on paper is 20 feet."
    assert scale_sentence(200, "metric") == "Scale 1 : 200."
