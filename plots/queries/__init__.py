"""Lists of the ground and its people, with what a page shows of them."""

from plots.queries.ground import history_of, members_of, plots_with_holders, season_now
from plots.queries.history import changes_in, changes_of, years_of_changes
from plots.queries.site import gardened_plots, plots_in_walk_order, site_map, site_of

__all__ = [
    "changes_in",
    "changes_of",
    "gardened_plots",
    "history_of",
    "members_of",
    "plots_in_walk_order",
    "plots_with_holders",
    "season_now",
    "site_map",
    "site_of",
    "years_of_changes",
]
