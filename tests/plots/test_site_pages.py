import pytest
from django.urls import reverse

from plots.models import Change, FeatureKind, Plot, PlotKind, Site, SiteFeature
from tests.factories import PlotFactory
from tests.texts import text_of

pytestmark = pytest.mark.django_db

FOOT = 0.3048
ROWS = {
    "rows": "2", "per_row": "3", "width": "10", "depth": "20", "gap": "1", "path": "4 ft", "down": "",
    "left": "2", "top": "2", "labels": "letters", "first": "B", "before": "", "kind": "personal",
    "with_paths": "on",
}  # fmt: skip


@pytest.fixture
def run(cast, as_user):
    return as_user(cast.deputy)


def url(name, cast, **more):
    return reverse(f"plots:{name}", kwargs={"slug": cast.garden.slug, **more})


def labels():
    return sorted(Plot.objects.values_list("label", flat=True))


def test_rows_are_looked_at_before_they_are_made(run, cast):
    page = run.post(url("site_rows", cast), ROWS)
    assert (page.status_code, labels()) == (200, ["A1"])
    assert page.context["looked"].labels == ["B1", "B2", "B3", "C1", "C2", "C3"]
    made = run.post(url("site_rows", cast), {**ROWS, "make": "yes"})
    assert made.headers["Location"] == url("site_map", cast)
    last = Plot.objects.get(label="C3")
    assert [round(value / FOOT, 3) for value in (last.left_m, last.top_m, last.width_m, last.length_m)] == [
        24, 26, 10, 20,
    ]  # fmt: skip
    path = SiteFeature.objects.get()
    assert (path.kind, round(path.width_m / FOOT, 3)) == (FeatureKind.PATH, 32)
    again = run.get(url("site_rows", cast)).context["form"]
    assert again.initial["first"] == "D"


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"rows": "0"}, "rows"),
        ({"per_row": "ten"}, "per_row"),
        ({"width": ""}, "width"),
        ({"first": "?"}, "first"),
        ({"first": "A"}, "__all__"),  # A1 stands already
        ({"rows": "200", "per_row": "500"}, "__all__"),
    ],
)
def test_rows_that_cannot_be_made_are_refused_with_the_reason(run, cast, changes, field):
    page = run.post(url("site_rows", cast), {**ROWS, **changes, "make": "yes"})
    assert (page.status_code, list(page.context["form"].errors)) == (422, [field])
    assert labels() == ["A1"]


def test_rows_nobody_uses_can_be_undone(run, cast):
    run.post(url("site_rows", cast), {**ROWS, "make": "yes"})
    page = text_of(run.get(url("site_map", cast)))
    assert "plots now B1, B2, B3, C1, C2, C3" in page
    assert "paths now 1" in page
    undo = url("change_undo", cast, pk=Change.objects.get(what="rows-made").pk)
    run.post(undo)
    assert (labels(), SiteFeature.objects.count()) == (["A1"], 0)


def test_rows_in_use_stay(run, cast):
    run.post(url("site_rows", cast), {**ROWS, "make": "yes"})
    cast.assignment.plot = Plot.objects.get(label="B2")
    cast.assignment.save()
    page = run.post(url("change_undo", cast, pk=Change.objects.get(what="rows-made").pk), follow=True)
    assert "B2 are in use already" in page.content.decode()
    assert len(labels()) == 7


def place(plot, left, top):
    plot.left_m, plot.top_m = left, top
    plot.save()


def test_the_map_shows_everybody_the_plots_and_only_overseers_what_is_free(cast, as_user):
    place(cast.plot, 0, 0)
    place(PlotFactory(garden=cast.garden, label="B2"), 2, 2)
    mine = as_user(cast.holder).get(url("site_map", cast))
    names = [plot.name for plot in mine.context["site"].drawn.plots]
    assert names == ["Plot A1, 9.8\xa0ft × 19.7\xa0ft, yours", "Plot B2, 9.8\xa0ft × 19.7\xa0ft"]
    assert [row.seen for row in mine.context["site"].rows] == [True, False]
    assert mine.context["site"].findings == []
    overseen = as_user(cast.helper).get(url("site_map", cast)).context["site"]
    assert [row.marks for row in overseen.rows] == ["", "free"]
    assert overseen.findings == ["Plot A1 and Plot B2 lie on the same ground."]
    assert "Hollis" not in as_user(cast.co_gardener).get(url("site_map", cast)).content.decode()


@pytest.mark.parametrize("rows", [1, 3])
def test_the_map_costs_the_same_with_more_plots(run, cast, rows, django_assert_num_queries):
    for number in range(rows):
        place(PlotFactory(garden=cast.garden), 4 * number, 0)
    # session, person, membership, overseer, visible, own, plots, features, site, power
    with django_assert_num_queries(10):
        run.get(url("site_map", cast))


def test_the_table_says_where_a_plot_is_and_how_far_water(run, cast):
    place(cast.plot, 3, 0)
    SiteFeature.objects.create(
        garden=cast.garden, kind="water", label="shed tap", left_m=9, top_m=1, width_m=1, length_m=1
    )
    row = run.get(url("site_map", cast)).context["shown"].rows[0]
    assert (row.row, row.corner, row.water) == (
        "row 1, number 1", "9.8\xa0ft, 0\xa0ft", "shed tap, 11\xa0ft"
    )  # fmt: skip
    table = run.get(url("site_map", cast) + "?as=csv").content.decode()
    assert '"shed tap, 11\xa0ft"' in table


def test_the_list_of_plots_narrows_to_what_is_free(run, cast):
    PlotFactory(garden=cast.garden, label="B2", accessible=True)
    PlotFactory(garden=cast.garden, label="Herbs", kind=PlotKind.COMMUNAL)
    PlotFactory(garden=cast.garden, label="Old", retired_on="2024-01-01")
    shown = {
        state: [str(plot) for plot in run.get(url("plots", cast), {"state": state}).context["shown"].rows]
        for state in ("held", "free", "none", "given-up")
    }
    assert shown == {"held": ["A1"], "free": ["B2"], "none": ["Herbs"], "given-up": ["Old"]}
    beds = run.get(url("plots", cast), {"bed": "accessible"}).context["shown"]
    assert [str(plot) for plot in beds.rows] == ["B2"]
    csv = run.get(url("plots", cast), {"q": "corin", "as": "csv"}).content.decode().splitlines()
    assert csv[1] == 'A1,9.84,19.69,,,"Hollis, Corin",held,for a member,0,,,nothing logged yet,'


def test_things_are_moved_together_and_each_keeps_where_it_was(run, cast):
    place(cast.plot, 0, 0)
    tap = SiteFeature.objects.create(
        garden=cast.garden, kind="water", left_m=9, top_m=1, width_m=1, length_m=1
    )
    moves = [
        f"plot-{cast.plot.pk} 1.5 2",
        f"feature-{tap.pk} 9 1",
        "plot-99999 1 1",
        "nonsense",
        "plot-1 nan 2",
    ]
    run.post(url("site_arrange", cast), {"place": moves})
    cast.plot.refresh_from_db()
    assert (cast.plot.left_m, cast.plot.top_m) == (1.5, 2)
    change = Change.objects.get()
    assert (change.about_name, change.before, change.by) == ("A1", {"left_m": 0, "top_m": 0}, cast.deputy)
    run.post(url("change_undo", cast, pk=change.pk))
    cast.plot.refresh_from_db()
    assert (cast.plot.left_m, cast.plot.top_m) == (0, 0)


def test_a_thing_of_another_garden_is_not_moved(run, cast):
    other = PlotFactory(left_m=0, top_m=0)
    run.post(url("site_arrange", cast), {"place": [f"plot-{other.pk} 5 5"]})
    other.refresh_from_db()
    assert other.left_m == 0


def test_a_path_is_drawn_changed_and_taken_off(run, cast):
    data = {"kind": "path", "label": "", "left_m": "0", "top_m": "3", "width_m": "40", "length_m": "4"}
    run.post(url("feature_new", cast), data)
    path = SiteFeature.objects.get()
    wrong = run.post(url("feature_edit", cast, pk=path.pk), {**data, "width_m": "-1"})
    assert (wrong.status_code, list(wrong.context["form"].errors)) == (422, ["width_m"])
    run.post(url("feature_edit", cast, pk=path.pk), {**data, "label": "Middle path", "accessible": "on"})
    path.refresh_from_db()
    assert (path.label, path.accessible, path.turn_deg) == ("Middle path", True, 0)
    run.post(url("feature_remove", cast, pk=path.pk))
    assert SiteFeature.objects.count() == 0
    run.post(url("change_undo", cast, pk=Change.objects.get(what="feature-removed").pk))
    assert SiteFeature.objects.get().label == "Middle path"
    run.post(url("change_undo", cast, pk=Change.objects.get(what="feature-made").pk))
    assert SiteFeature.objects.get().label == "Middle path"  # the one that was drawn first is gone already


def test_the_site_has_a_size_and_a_north(run, cast):
    data = {"width_m": "120", "length_m": "", "north_deg": "90", "walk_by": "columns"}
    run.post(url("site_edit", cast), data)
    run.post(url("site_edit", cast), {**data, "north_deg": "45"})
    site = Site.objects.get()
    assert (round(site.width_m, 3), site.length_m, site.north_deg) == (36.576, None, 45)
    assert run.post(url("site_edit", cast), {**data, "north_deg": "400"}).status_code == 422


def test_the_walk_is_proposed_set_by_hand_and_followed_again(run, cast):
    plots = {"A1": cast.plot}
    for number, label in enumerate(("A2", "A3")):
        plots[label] = PlotFactory(garden=cast.garden, label=label)
        place(plots[label], 4 * number + 4, 0)
    place(cast.plot, 0, 0)

    def walk():
        return [plot.label for plot in run.get(url("site_walk", cast)).context["plots"]]

    assert walk() == ["A1", "A2", "A3"]
    run.post(url("site_walk", cast), {"plot": plots["A3"].pk, "after": ""})
    assert walk() == ["A3", "A1", "A2"]
    same = run.post(url("site_walk", cast), {"plot": plots["A1"].pk, "after": plots["A1"].pk})
    assert same.status_code == 422
    run.post(url("site_walk", cast), {"forget": "yes"})
    assert walk() == ["A1", "A2", "A3"]
    run.post(url("change_undo", cast, pk=Change.objects.first().pk))
    assert walk() == ["A3", "A1", "A2"]


def test_a_plot_on_the_map_has_both_distances_and_both_sides(run, cast):
    data = {
        "label": "A1",
        "kind": PlotKind.COMMUNAL,
        "width_m": "",
        "length_m": "4",
        "left_m": "3",
        "note": "",
    }
    page = run.post(url("plot_edit", cast, pk=cast.plot.pk), data)
    assert (page.status_code, sorted(page.context["form"].errors)) == (422, ["kind", "top_m", "width_m"])
    assert page.context["form"].errors["kind"] == ["Hollis holds this plot. End that first."]
    cast.assignment.ended_on = cast.assignment.began_on
    cast.assignment.save()
    run.post(url("plot_edit", cast, pk=cast.plot.pk), {**data, "width_m": "4", "top_m": "0"})
    cast.plot.refresh_from_db()
    assert (cast.plot.kind, cast.plot.top_m) == (PlotKind.COMMUNAL, 0)


def test_a_held_plot_is_not_given_up_and_a_free_one_keeps_its_history(run, cast):
    page = run.post(url("plot_retire", cast, pk=cast.plot.pk), follow=True)
    assert "Hollis holds plot A1. End that first." in page.content.decode()
    cast.assignment.ended_on = cast.assignment.began_on
    cast.assignment.save()
    run.post(url("plot_retire", cast, pk=cast.plot.pk))
    cast.plot.refresh_from_db()
    assert (cast.plot.retired_on, cast.plot.assignments.count()) == (cast.garden.today(), 1)
    assert run.get(url("site_map", cast)).context["site"].unplaced == []
    run.post(url("plot_restore", cast, pk=cast.plot.pk))
    cast.plot.refresh_from_db()
    assert cast.plot.retired_on is None
    assert list(Change.objects.values_list("what", flat=True)) == ["plot-restored", "plot-retired"]
