"""Changes to the ground and its people: verbs, each one transaction."""

from plots.service.agreements import draft_version, put_in_force, sign, take_signature_back
from plots.service.dates import copy_dates, keep_date, remove_date, restore_date
from plots.service.dues import add_due, draw_up_dues, settle_due
from plots.service.ground import found_installation, is_founded, make_garden
from plots.service.history import record, save_changes
from plots.service.holding import assign_plot, end_assignment, hand_over, reopen_assignment
from plots.service.hours import add_hours, excuse, remove_hours, restore_hours
from plots.service.people import add_member, change_role, remove_member
from plots.service.set_up import close_set_up, mark_step, reopen_set_up
from plots.service.sign_in import count_attempt, forgive_attempt, make_link, person_of_link, use_link
from plots.service.site import (
    keep_feature,
    keep_plot,
    keep_site,
    keep_walk,
    make_rows,
    move_things,
    refuse_rows,
    remove_feature,
    restore_plot,
    retire_plot,
)
from plots.service.turn import (
    answer_renewal,
    close_round,
    free_plot,
    keep_season,
    move_household,
    open_round,
    renew,
    undo_decision,
)
from plots.service.undo import undo
from plots.service.workdays import (
    close_make_up_job,
    finish_make_up_job,
    hold_workday,
    keep_make_up_job,
    keep_workday,
    sign_up,
    type_sheet,
    withdraw,
)

__all__ = [
    "add_due",
    "add_hours",
    "add_member",
    "answer_renewal",
    "assign_plot",
    "change_role",
    "close_make_up_job",
    "close_round",
    "close_set_up",
    "copy_dates",
    "count_attempt",
    "draft_version",
    "draw_up_dues",
    "end_assignment",
    "excuse",
    "finish_make_up_job",
    "forgive_attempt",
    "found_installation",
    "free_plot",
    "hand_over",
    "hold_workday",
    "is_founded",
    "keep_date",
    "keep_feature",
    "keep_make_up_job",
    "keep_plot",
    "keep_season",
    "keep_site",
    "keep_walk",
    "keep_workday",
    "make_garden",
    "make_link",
    "make_rows",
    "mark_step",
    "move_household",
    "move_things",
    "open_round",
    "person_of_link",
    "put_in_force",
    "record",
    "refuse_rows",
    "remove_date",
    "remove_feature",
    "remove_hours",
    "remove_member",
    "renew",
    "reopen_assignment",
    "reopen_set_up",
    "restore_date",
    "restore_hours",
    "restore_plot",
    "retire_plot",
    "save_changes",
    "settle_due",
    "sign",
    "sign_up",
    "take_signature_back",
    "type_sheet",
    "undo",
    "undo_decision",
    "use_link",
    "withdraw",
]
