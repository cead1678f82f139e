"""The ground: laying out rows, moving things on the map, giving plots up, and the way past them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.text import get_text_list
from django.utils.translation import gettext as _

from plots.models import Change, FeatureKind, Garden, Plot, PlotKind, Site, SiteFeature, User
from plots.powers import Power
from plots.service.history import fields_of, record, record_fields
from plots.service.undo import put_back, thing_of, undoable
from plots.sitemap.rows import MOST, Rows, row_paths, row_plots, taken_labels
from plots.stakes import new_code

SITE_FIELDS = ("width_m", "length_m", "north_deg", "walk_by")
PLACE_FIELDS = ("left_m", "top_m", "turn_deg")
PLOT_FIELDS = (
    "label", "kind", "width_m", "length_m", "accessible", "bed_height_m", *PLACE_FIELDS, "note",
    "public_line",
)  # fmt: skip
FEATURE_FIELDS = ("kind", "label", "width_m", "length_m", "accessible", *PLACE_FIELDS)
LABELS_NAMED = 12


@dataclass(frozen=True, slots=True)
class Move:
    """A new place for one plot or one other thing: metres from the left and from the top."""

    key: str  # "plot-12" or "feature-3"
    left: float
    top: float


@transaction.atomic
def keep_site(*, site: Site, by: User) -> Site:
    """Keeps the site's size, its north and how one walks past its plots."""
    old = Site.objects.filter(garden=site.garden).first() or Site(garden=site.garden)
    before = fields_of(old, SITE_FIELDS)
    site.pk = old.pk
    site.save()
    record_fields(garden=site.garden, by=by, about=site, what="site-changed", before=before)
    return site


def make_rows(
    *,
    garden: Garden,
    by: User,
    asked: Rows,
    kind: str = PlotKind.PERSONAL,
    accessible: bool = False,
    bed_height_m: float | None = None,
    with_paths: bool = False,
) -> list[Plot]:
    """Makes the plots of these rows, and the paths between them; all or none.

    Raises `ValidationError` if a label stands on a stake already: labels are kept, never shared.
    """
    refuse_rows(garden=garden, asked=asked)
    laid = row_plots(asked)
    shared = {"garden": garden, "kind": kind, "accessible": accessible, "bed_height_m": bed_height_m}
    plots = [
        Plot(
            label=plot.label, width_m=plot.box.width, length_m=plot.box.length,
            left_m=plot.box.left, top_m=plot.box.top, **shared,
        )
        for plot in laid
    ]  # fmt: skip
    paths = row_paths(asked) if with_paths else []
    try:
        with transaction.atomic():
            made = Plot.objects.bulk_create(plots)
            drawn = SiteFeature.objects.bulk_create(
                SiteFeature(
                    garden=garden, kind=FeatureKind.PATH, left_m=path.left, top_m=path.top,
                    width_m=path.width, length_m=path.length,
                )
                for path in paths
            )  # fmt: skip
            site, _made = Site.objects.get_or_create(garden=garden)
            after = {"plots": [plot.label for plot in laid], "paths": [path.pk for path in drawn]}
            record(garden=garden, by=by, about=site, what="rows-made", after=after)
    except IntegrityError:
        raise ValidationError(_("Somebody has just used one of these labels. Please look again.")) from None
    return made


def refuse_rows(*, garden: Garden, asked: Rows) -> None:
    """Raises `ValidationError` for rows that cannot be made."""
    if asked.rows * asked.per_row > MOST:
        raise ValidationError(_("At most %(most)d plots can be made at once.") % {"most": MOST})
    taken = taken_labels(row_plots(asked), garden.plots.values_list("label", flat=True))
    if taken:
        named = taken[:LABELS_NAMED] + (["…"] if len(taken) > LABELS_NAMED else [])
        raise ValidationError(
            _("These labels are on stakes already: %(labels)s. Begin with another letter or number.")
            % {"labels": get_text_list(named, _("and"))}
        )


@transaction.atomic
def keep_plot(*, plot: Plot, by: User, why: str = "") -> Plot:
    """Keeps a new or changed plot, with what it was before."""
    old = Plot.objects.filter(pk=plot.pk).first() if plot.pk else None
    plot.save()
    if old is None:
        record(garden=plot.garden, by=by, about=plot, what="plot-made", after={"label": plot.label}, why=why)
    else:
        before = fields_of(old, PLOT_FIELDS)
        record_fields(garden=plot.garden, by=by, about=plot, what="plot-changed", before=before, why=why)
    return plot


@transaction.atomic
def renew_stake(*, plot: Plot, by: User) -> Plot:
    """Gives the stake a new code, when it was lost or its picture went around; the old one opens nothing."""
    plot.stake_code = new_code()
    plot.save(update_fields=["stake_code"])
    record(garden=plot.garden, by=by, about=plot, what="stake-renewed")
    return plot


@transaction.atomic
def retire_plot(*, plot: Plot, by: User, why: str = "") -> Plot:
    """Gives a plot up from today: it is offered to nobody any more, and keeps its history."""
    current = Plot.objects.select_for_update().select_related("garden").get(pk=plot.pk)
    today = current.garden.today()
    holding = current.assignments.standing(today).select_related("holder").first()
    if holding is not None:
        raise ValidationError(
            _("%(person)s holds plot %(plot)s. End that first.") % {"person": holding.holder, "plot": current}
        )
    if current.retired_on is None:
        before = fields_of(current, ["retired_on"])
        current.retired_on = today
        current.save(update_fields=["retired_on"])
        record_fields(
            garden=current.garden, by=by, about=current, what="plot-retired", before=before, why=why
        )
    return current


@transaction.atomic
def restore_plot(*, plot: Plot, by: User, why: str = "") -> Plot:
    """Takes a plot up again that was given up."""
    current = Plot.objects.select_for_update().select_related("garden").get(pk=plot.pk)
    before = fields_of(current, ["retired_on"])
    current.retired_on = None
    current.save(update_fields=["retired_on"])
    record_fields(garden=current.garden, by=by, about=current, what="plot-restored", before=before, why=why)
    return current


@transaction.atomic
def move_things(*, garden: Garden, by: User, moves: Iterable[Move]) -> int:
    """Moves plots and other things to new places on the map; how many have really moved.

    Things of another garden, or that somebody has removed meanwhile, are passed over. A plot without a size
    cannot stand on the map.
    """
    wanted = {move.key: move for move in moves}
    things: list[Plot | SiteFeature] = [
        *garden.plots.select_for_update().filter(
            pk__in=_keys(wanted, "plot"), width_m__isnull=False, length_m__isnull=False
        ),
        *garden.features.select_for_update().filter(pk__in=_keys(wanted, "feature")),
    ]
    moved = 0
    for thing in things:
        move = wanted[thing_key(thing)]
        before = fields_of(thing, ["left_m", "top_m"])
        thing.left_m, thing.top_m = round(move.left, 4), round(move.top, 4)
        if before != fields_of(thing, before):
            thing.save(update_fields=["left_m", "top_m"])
            record_fields(garden=garden, by=by, about=thing, what="moved", before=before)
            moved += 1
    return moved


def thing_key(thing: Plot | SiteFeature) -> str:
    """What a thing on the map is called in addresses, forms and the drawing."""
    return f"{'plot' if isinstance(thing, Plot) else 'feature'}-{thing.pk}"


@transaction.atomic
def keep_feature(*, feature: SiteFeature, by: User) -> SiteFeature:
    old = SiteFeature.objects.filter(pk=feature.pk).first() if feature.pk else None
    feature.save()
    if old is None:
        after = fields_of(feature, FEATURE_FIELDS)
        record(garden=feature.garden, by=by, about=feature, what="feature-made", after=after)
    else:
        before = fields_of(old, FEATURE_FIELDS)
        record_fields(garden=feature.garden, by=by, about=feature, what="feature-changed", before=before)
    return feature


@transaction.atomic
def remove_feature(*, feature: SiteFeature, by: User) -> None:
    """Takes a thing off the map; the garden's history keeps what it was and where."""
    site, _made = Site.objects.get_or_create(garden=feature.garden)
    before = fields_of(feature, FEATURE_FIELDS)
    record(garden=feature.garden, by=by, about=site, what="feature-removed", before=before)
    feature.delete()


@transaction.atomic
def keep_walk(*, garden: Garden, by: User, order: Sequence[int] | None) -> None:
    """Sets the order in which one walks past the plots, by their keys; `None` follows the rows again."""
    site, _made = Site.objects.get_or_create(garden=garden)
    plots = {plot.pk: plot for plot in garden.plots.select_for_update()}
    before = _walk_labels(plots.values())
    places = {pk: place for place, pk in enumerate(order or (), start=1)}
    for plot in plots.values():
        plot.walk_place = places.get(plot.pk)
    Plot.objects.bulk_update(plots.values(), ["walk_place"], batch_size=500)
    after = _walk_labels(plots.values())
    if before != after:
        record(
            garden=garden,
            by=by,
            about=site,
            what="walk-changed",
            before={"walk": before},
            after={"walk": after},
        )


def _walk_labels(plots: Iterable[Plot]) -> list[str]:
    placed = [plot for plot in plots if plot.walk_place is not None]
    return [plot.label for plot in sorted(placed, key=lambda plot: plot.walk_place or 0)]


def _keys(moves: Iterable[str], kind: str) -> list[int]:
    found = [key.partition("-") for key in moves]
    return [int(pk) for name, _dash, pk in found if name == kind and pk.isascii() and pk.isdigit()]


undoable(
    "site-changed", "plot-changed", "plot-retired", "plot-restored", "moved", "feature-changed",
    power=Power.PLOTS,
)(put_back)  # fmt: skip


@undoable("rows-made", power=Power.PLOTS)
def _unmake_rows(change: Change, _by: User) -> None:
    """Takes rows away that nobody has used: no holder, no plan, nothing else that belongs to a plot."""
    plots = list(change.garden.plots.select_for_update().filter(label__in=change.after["plots"]))
    used = [plot.label for plot in plots if _is_used(plot)]
    if used:
        raise ValidationError(
            _("%(labels)s are in use already. Give plots up one by one instead.")
            % {"labels": get_text_list(used[:LABELS_NAMED], _("and"))}
        )
    change.garden.plots.filter(pk__in=[plot.pk for plot in plots]).delete()
    change.garden.features.filter(kind=FeatureKind.PATH, pk__in=change.after["paths"]).delete()


def _is_used(plot: Plot) -> bool:
    """Whether any row of any model belongs to the plot."""
    return any(
        relation.related_model._default_manager.filter(**{relation.field.name: plot}).exists()
        for relation in Plot._meta.related_objects
    )


@undoable("feature-removed", power=Power.PLOTS)
def _draw_again(change: Change, _by: User) -> None:
    SiteFeature.objects.create(garden=change.garden, **change.before)


@undoable("feature-made", power=Power.PLOTS)
def _wipe_off(change: Change, _by: User) -> None:
    thing_of(change).delete()


@undoable("walk-changed", power=Power.PLOTS)
def _walk_as_before(change: Change, _by: User) -> None:
    plots = list(change.garden.plots.select_for_update())
    if _walk_labels(plots) != change.after["walk"]:
        raise ValidationError(_("The way past the plots was changed again since."))
    places = {label: place for place, label in enumerate(change.before["walk"], start=1)}
    for plot in plots:
        plot.walk_place = places.get(plot.label)
    Plot.objects.bulk_update(plots, ["walk_place"], batch_size=500)
