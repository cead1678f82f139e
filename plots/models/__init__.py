"""The ground and its people."""

from plots.models.agreements import AgreementText, AgreementVersion, Signature, SignedHow
from plots.models.ground import Assignment, Garden, NerveChoice, Paper, Plot, PlotKind, Season, Units
from plots.models.history import Change
from plots.models.people import (
    CONTACTS,
    ContactFor,
    Installation,
    Membership,
    Role,
    SignInFailure,
    SignInLink,
    User,
)
from plots.models.roster import Duty, Household, LinkRequest, Whereabout
from plots.models.rules import BLOCKS, AfterDecline, DuesArea, GardenRules, Owing, fields_in
from plots.models.set_up import SetUp
from plots.models.site import FeatureKind, Site, SiteFeature, WalkBy
from plots.models.turn import Decision, Due, DueKind, Renewal, RenewalRound, WishChoice
from plots.models.workdays import (
    YEARLY_KINDS,
    DateKind,
    GardenDate,
    Held,
    HoursDone,
    HoursExcused,
    SignUp,
    Workday,
    WorkTask,
)

__all__ = [
    "BLOCKS",
    "CONTACTS",
    "YEARLY_KINDS",
    "AfterDecline",
    "AgreementText",
    "AgreementVersion",
    "Assignment",
    "Change",
    "ContactFor",
    "DateKind",
    "Decision",
    "Due",
    "DueKind",
    "DuesArea",
    "Duty",
    "FeatureKind",
    "Garden",
    "GardenDate",
    "GardenRules",
    "Held",
    "HoursDone",
    "HoursExcused",
    "Household",
    "Installation",
    "LinkRequest",
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
    "SignUp",
    "Signature",
    "SignedHow",
    "Site",
    "SiteFeature",
    "Units",
    "User",
    "WalkBy",
    "Whereabout",
    "WishChoice",
    "WorkTask",
    "Workday",
    "fields_in",
]
