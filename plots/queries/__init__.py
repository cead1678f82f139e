"""Lists of the ground and its people, with what a page shows of them."""

from plots.queries.ground import history_of, members_of, plots_with_holders, season_now

__all__ = ["history_of", "members_of", "plots_with_holders", "season_now"]
