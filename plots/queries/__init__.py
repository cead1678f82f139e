"""Lists of the ground and its people, with what a page shows of them."""

from plots.queries.agreements import Signer, agreement_of, signature_of, signers_of, text_for
from plots.queries.ground import history_of, members_of, plots_with_holders, season_now
from plots.queries.history import changes_in, changes_of, years_of_changes
from plots.queries.site import gardened_plots, plots_in_walk_order, site_map, site_of
from plots.queries.turn import (
    Held,
    count_by_standing,
    free_from,
    free_plots,
    held_in,
    movers_in,
    next_season,
    open_round_of,
    own_questions,
    people_owing,
    proposals_for,
)

__all__ = [
    "Held",
    "Signer",
    "agreement_of",
    "changes_in",
    "changes_of",
    "count_by_standing",
    "free_from",
    "free_plots",
    "gardened_plots",
    "held_in",
    "history_of",
    "members_of",
    "movers_in",
    "next_season",
    "open_round_of",
    "own_questions",
    "people_owing",
    "plots_in_walk_order",
    "plots_with_holders",
    "proposals_for",
    "season_now",
    "signature_of",
    "signers_of",
    "site_map",
    "site_of",
    "text_for",
    "years_of_changes",
]
