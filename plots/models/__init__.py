"""The ground and its people."""

from plots.models.agreements import AgreementText, AgreementVersion, Signature, SignedHow
from plots.models.ground import Assignment, Garden, NerveChoice, Paper, Plot, PlotKind, Season, Units
from plots.models.history import Change
from plots.models.people import Installation, Membership, Role, SignInFailure, SignInLink, User
from plots.models.rules import BLOCKS, AfterDecline, DuesArea, GardenRules, Owing, fields_in
from plots.models.set_up import SetUp
from plots.models.site import FeatureKind, Site, SiteFeature, WalkBy
from plots.models.turn import Decision, Due, DueKind, Renewal, RenewalRound, WishChoice

__all__ = [
    "BLOCKS",
    "AfterDecline",
    "AgreementText",
    "AgreementVersion",
    "Assignment",
    "Change",
    "Decision",
    "Due",
    "DueKind",
    "DuesArea",
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
    "Renewal",
    "RenewalRound",
    "Role",
    "Season",
    "SetUp",
    "SignInFailure",
    "SignInLink",
    "Signature",
    "SignedHow",
    "Site",
    "SiteFeature",
    "Units",
    "User",
    "WalkBy",
    "WishChoice",
    "fields_in",
]
