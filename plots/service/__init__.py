"""Changes to the ground and its people: verbs, each one transaction."""

from plots.service.ground import found_installation, is_founded, make_garden
from plots.service.history import record, save_changes
from plots.service.holding import assign_plot, end_assignment, hand_over, reopen_assignment
from plots.service.people import add_member, change_role, remove_member
from plots.service.sign_in import count_attempt, forgive_attempt, make_link, person_of_link, use_link
from plots.service.undo import undo

__all__ = [
    "add_member",
    "assign_plot",
    "change_role",
    "count_attempt",
    "end_assignment",
    "forgive_attempt",
    "found_installation",
    "hand_over",
    "is_founded",
    "make_garden",
    "make_link",
    "person_of_link",
    "record",
    "remove_member",
    "reopen_assignment",
    "save_changes",
    "undo",
    "use_link",
]
