"""The ground and its people."""

from plots.models.ground import Assignment, Garden, NerveChoice, Paper, Plot, Season, Units, zone_names
from plots.models.people import Installation, Membership, Role, SignInFailure, SignInLink, User

__all__ = [
    "Assignment",
    "Garden",
    "Installation",
    "Membership",
    "NerveChoice",
    "Paper",
    "Plot",
    "Role",
    "Season",
    "SignInFailure",
    "SignInLink",
    "Units",
    "User",
    "zone_names",
]
