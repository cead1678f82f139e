"""The ground and its people."""

from plots.models.ground import Assignment, Garden, NerveChoice, Paper, Plot, PlotKind, Season, Units
from plots.models.history import Change
from plots.models.people import Installation, Membership, Role, SignInFailure, SignInLink, User
from plots.models.rules import BLOCKS, AfterDecline, GardenRules, Owing, fields_in
from plots.models.site import FeatureKind, Site, SiteFeature, WalkBy

__all__ = [
    "BLOCKS",
    "AfterDecline",
    "Assignment",
    "Change",
    "FeatureKind",
    "Garden",
    "GardenRules",
    "Installation",
    "Membership",
    "NerveChoice",
    "Owing",
    "Paper",
    "Plot",
    "PlotKind",
    "Role",
    "Season",
    "SignInFailure",
    "SignInLink",
    "Site",
    "SiteFeature",
    "Units",
    "User",
    "WalkBy",
    "fields_in",
]
