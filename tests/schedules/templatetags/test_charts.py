import subprocess
import sys
from xml.etree import ElementTree

from django.template import engines

from schedules.reports.season import FrostChart
from tests.schedules.reports.samples import TOMATO, curve, strip

PAGE = """{% load charts %}<div>
{% season_strip strip title="Season" desc="Tomato" %}
{% frost_chart frost title="Spring" %}
{% marks_legend strip %}
</div>"""


def rendered() -> ElementTree.Element:
    frost = FrostChart("Heading", (curve("32 °F"),), falling=True)
    page = engines["django"].from_string(PAGE).render({"strip": strip(TOMATO), "frost": frost})
    return ElementTree.fromstring(page)  # noqa: S314  our own markup


def named(page: ElementTree.Element) -> list[ElementTree.Element]:
    return [e for e in page.iter() if e.tag.endswith("svg") and e.get("role") == "img"]


def test_each_chart_comes_narrow_and_wide():
    assert [(e.get("class"), e.get("viewBox").split()[2]) for e in named(rendered())] == [
        ("chart narrow", "360"),
        ("chart wide", "760"),
        ("chart narrow", "360"),
        ("chart wide", "760"),
    ]


def test_ids_are_unique_on_the_page_and_name_their_chart():
    page = rendered()
    ids = [e.get("id") for e in page.iter() if e.get("id")]
    assert len(ids) == len(set(ids)) == 6
    titles = {e.get("id"): e.text for e in page.iter() if e.get("id")}
    assert [titles[e.get("aria-labelledby").split()[0]] for e in named(page)] == [
        "Season",
        "Season",
        "Spring",
        "Spring",
    ]


def test_the_key_stands_beside_its_words():
    items = [e for e in rendered().iter() if e.tag == "li"]
    assert len(items) == 9
    assert all(item[0].get("aria-hidden") == "true" for item in items)
    assert items[2][0].tail.strip() == "sow"


def test_a_mark_stands_beside_its_word():
    page = engines["django"].from_string("{% load charts %}{% mark operation %}").render({"operation": "sow"})
    mark = ElementTree.fromstring(page)  # noqa: S314  our own markup
    assert (mark.get("class"), mark.get("aria-hidden")) == ("chart mark", "true")


def test_a_page_without_charts_does_not_load_reportlab():
    code = "import schedules.templatetags.charts, sys; sys.exit('reportlab' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
