"""May this person? The one answer for pages, fragments, feeds and files alike.

What a person may not see does not exist for them (404); what they may see but not do is refused with its
reason (403). Nobody comes this far without signing in: `plots.middleware.SignInRequired` sees to that.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from django.contrib.auth.models import AnonymousUser
from django.core.exceptions import PermissionDenied
from django.db.models import Exists, OuterRef, Q, QuerySet
from django.http import Http404
from django.utils.translation import gettext as _

from plots.models import Assignment, Garden, Membership, Plot, PlotKind, Role, StandIn, User
from plots.models.ground import standing
from plots.powers import Power, covers
from plots.wording import power_text

Visitor = User | AnonymousUser
_OVERSEE = [Role.COORDINATOR, Role.HELPER]


def _membership(user: Visitor, slug: str) -> Membership:
    if not user.is_authenticated:
        raise Http404
    try:
        return Membership.objects.select_related("garden").get(user=user, garden__slug=slug)
    except Membership.DoesNotExist:
        raise Http404 from None


def role_in(user: Visitor, garden: Garden) -> Role | None:
    """What the person is in the garden, `None` for somebody who does not belong to it."""
    if not user.is_authenticated:
        return None
    role = Membership.objects.filter(user=user, garden=garden).values_list("role", flat=True).first()
    return None if role is None else Role(role)


def powers_in(user: Visitor, garden: Garden) -> frozenset[Power]:
    """What the person may do over the whole garden; nothing for members and outsiders."""
    if not user.is_authenticated:
        return frozenset()
    membership = Membership.objects.filter(user=user, garden=garden).first()
    return frozenset() if membership is None else membership.all_powers()


def may_run(user: Visitor, garden: Garden, power: Power | None = None) -> bool:
    """Whether the person is a coordinator, or with `power`, anybody who has it."""
    if power is None:
        return role_in(user, garden) == Role.COORDINATOR
    return power in powers_in(user, garden)


def oversees(user: Visitor, garden: Garden) -> bool:
    """Whether the person sees every plot of the garden, and not only their own."""
    return role_in(user, garden) in _OVERSEE


def visible_gardens(user: Visitor) -> QuerySet[Garden]:
    return Garden.objects.filter(memberships__user_id=user.pk)


def garden_to_see(user: Visitor, slug: str) -> Garden:
    return _membership(user, slug).garden


def garden_to_join(user: Visitor, slug: str) -> tuple[Garden, User | None]:
    """The garden whose waiting list the visitor may join, and their account if they are a member of it.

    Without membership only where the garden lets anybody sign up; otherwise it does not exist for them.
    """
    garden = Garden.objects.select_related("rules").filter(slug=slug).first()
    if garden is None:
        raise Http404
    if user.is_authenticated and role_in(user, garden) is not None:
        return garden, user
    if not garden.rules.sign_up_open:
        raise Http404
    return garden, None


def garden_to_run(user: Visitor, slug: str, power: Power | None = None) -> Garden:
    """The garden, for its coordinators and for helpers with `power`; without one, for coordinators alone."""
    membership = _membership(user, slug)
    if membership.role == Role.COORDINATOR or (power is not None and membership.has(power)):
        return membership.garden
    words = {"garden": membership.garden}
    if power is None:
        raise PermissionDenied(_("Only a coordinator of %(garden)s may do this.") % words)
    raise PermissionDenied(
        _("Only a coordinator of %(garden)s may do this, or a helper trusted with %(power)s.")
        % {**words, "power": power_text(power)}
    )


def _holds(user: Visitor, garden: Garden) -> Exists:
    """That the person holds a plot, alone or with others, now or agreed for later: winter is for planning."""
    mine = Q(holder_id=user.pk) | Q(co_gardeners=user.pk)
    return Exists(Assignment.objects.standing(garden.today()).filter(mine, plot=OuterRef("pk")))


def _is(user: Visitor, roles: list[Role]) -> Exists:
    return Exists(Membership.objects.filter(user_id=user.pk, garden=OuterRef("garden"), role__in=roles))


def own_plots(user: Visitor, garden: Garden) -> QuerySet[Plot]:
    """The plots that the person holds or shares now; a coordinator too has only these."""
    return garden.plots.filter(_is(user, list(Role)), _holds(user, garden))


def visible_plots(user: Visitor, garden: Garden) -> QuerySet[Plot]:
    """A member sees their own plots and what all garden, coordinators and helpers see all of the garden."""
    near = _holds(user, garden) | ~Q(kind=PlotKind.PERSONAL)
    return garden.plots.filter(_is(user, _OVERSEE) | (_is(user, list(Role)) & near))


def assignment_to_pause(user: Visitor, slug: str, assignment_pk: int) -> Assignment:
    """Who gardens the plot says themself when they are away; or whoever is trusted with care for them."""
    garden = _membership(user, slug).garden
    rows = Assignment.objects.filter(plot__garden=garden).select_related("plot__garden")
    if not may_run(user, garden, Power.CARE):
        rows = rows.filter(Q(holder_id=user.pk) | Q(co_gardeners=user.pk)).distinct()
        if not rows.filter(pk=assignment_pk).exists():
            raise PermissionDenied(_("This is for the people of the plot, and for who is trusted with care."))
    found = rows.filter(pk=assignment_pk).first()
    if found is None:
        raise Http404
    return found


def stand_in_to_end(user: Visitor, slug: str, stand_in_pk: int) -> StandIn:
    """For who asked, who was asked, the people of the plot, and whoever is trusted with care."""
    garden = _membership(user, slug).garden
    rows = StandIn.objects.filter(assignment__plot__garden=garden)
    found = rows.select_related("assignment__plot__garden", "person").filter(pk=stand_in_pk).first()
    people = Q(person_id=user.pk) | Q(assignment__holder_id=user.pk) | Q(assignment__co_gardeners=user.pk)
    if not may_run(user, garden, Power.CARE) and not rows.filter(people, pk=stand_in_pk).exists():
        raise PermissionDenied(_("This is for the people of the plot, and for who is trusted with care."))
    if found is None:
        raise Http404
    return found


def plot_to_see(user: Visitor, garden: Garden, plot_pk: int) -> Plot:
    try:
        return visible_plots(user, garden).select_related("garden").get(pk=plot_pk)
    except Plot.DoesNotExist:
        raise Http404 from None


def may_plan(user: Visitor, plot: Plot) -> bool:
    """Holders, co-gardeners and coordinators plan; helpers look."""
    planner = _is(user, [Role.COORDINATOR]) | (_is(user, list(Role)) & _holds(user, plot.garden))
    return Plot.objects.filter(planner, pk=plot.pk).exists()


def plot_to_plan(user: Visitor, garden: Garden, plot_pk: int) -> Plot:
    plot = plot_to_see(user, garden, plot_pk)
    if not may_plan(user, plot):
        raise PermissionDenied(
            _("Plot %(plot)s is planned by the people who hold it and by coordinators.") % {"plot": plot}
        )
    return plot


LATE_DAYS = 30  # a log kept on a phone may come in so long after the plot was given up
_LOGGERS = frozenset({Power.CARE, Power.PLOTS})


def logs_everywhere(user: Visitor, garden: Garden) -> bool:
    """Whether the person may write logs for every plot of the garden, of any day."""
    return bool(_LOGGERS & powers_in(user, garden))


def garden_to_log(user: Visitor, slug: str) -> Garden:
    """The garden, for who writes logs of all its plots and for all its people."""
    garden = garden_to_see(user, slug)
    if not logs_everywhere(user, garden):
        raise PermissionDenied(
            _("Logs from paper are typed in by coordinators, and by helpers trusted with care or with plots.")
        )
    return garden


def plots_to_log(user: Visitor, garden: Garden, *, late: bool = False) -> QuerySet[Plot]:
    """The plots whose logs the person may write: their own, those they stand in for, and what all garden.

    With `late`, those too of which they may still tell what was done before they gave them up; which days
    that are, `days_to_log` says.
    """
    today = garden.today()
    plots = garden.plots.filter(Q(retired_on__isnull=True) | Q(retired_on__gt=today))
    if logs_everywhere(user, garden):
        return garden.plots.all() if late else plots
    since = today - timedelta(days=LATE_DAYS) if late else today
    mine = Q(holder_id=user.pk) | Q(co_gardeners=user.pk)
    held = Exists(Assignment.objects.standing(since).filter(mine, plot=OuterRef("pk")))
    asked = StandIn.objects.filter(
        person_id=user.pk, assignment__plot=OuterRef("pk"), taken_back_at__isnull=True,
        first_day__lte=today, last_day__gte=since,
    ).filter(standing(since, "assignment__"))  # fmt: skip
    shared = ~Q(kind=PlotKind.PERSONAL)
    return (garden.plots.all() if late else plots).filter(
        _is(user, list(Role)), held | Exists(asked) | Q(shared)
    )


def days_to_log(
    user: Visitor, garden: Garden, plots: Iterable[Plot]
) -> dict[int, list[tuple[date, date | None]]] | None:
    """By plot from when to when, both counted, the person may tell of it; `None` for every day of every plot.

    A plot that all garden is not in it: every day of it may be told by everybody.
    """
    if logs_everywhere(user, garden):
        return None
    days: dict[int, list[tuple[date, date | None]]] = {plot.pk: [] for plot in plots if plot.is_personal}
    mine = Q(holder_id=user.pk) | Q(co_gardeners=user.pk)
    held = Assignment.objects.filter(mine, plot__in=days).values_list("plot", "began_on", "ended_on")
    asked = StandIn.objects.filter(
        person_id=user.pk, assignment__plot__in=days, taken_back_at__isnull=True
    ).values_list("assignment__plot", "first_day", "last_day")
    for plot, first, last in [*held.distinct(), *asked]:
        days[plot].append((first, last))
    return days


def roles_to_give(user: Visitor, garden: Garden) -> list[Role]:
    """The parts that the user may give to others: nobody makes somebody more than they are themselves."""
    return list(Role) if may_run(user, garden) else [Role.MEMBER]


def may_change_person(user: Visitor, membership: Membership) -> bool:
    """Whether the user may change the member's account and make sign-in links for it.

    Only when it opens nothing beyond what they may do themselves, in every garden of that person: who can
    open an account can do all that it may.
    """
    person = membership.user
    if person.pk == user.pk:
        return True
    if person.is_staff and not may_make_gardens(user):
        return False
    mine = {own.garden_id: own for own in Membership.objects.filter(user_id=user.pk)}
    return all(
        (own := mine.get(theirs.garden_id)) and covers(own.role, own.powers, theirs.role, theirs.powers)
        for theirs in Membership.objects.filter(user=person)
    )


def person_to_change(user: Visitor, garden: Garden, membership_pk: int) -> Membership:
    membership = member_to_see(user, garden, membership_pk)
    if not may_change_person(user, membership):
        raise PermissionDenied(
            _("%(person)s can reach more than your gardens, so only they can change their account.")
            % {"person": membership.user}
        )
    return membership


def member_to_see(user: Visitor, garden: Garden, membership_pk: int) -> Membership:
    """A member of a garden that the user runs, or whose people they look after."""
    try:
        return garden.memberships.select_related("user", "garden").get(pk=membership_pk)
    except Membership.DoesNotExist:
        raise Http404 from None


def may_make_gardens(user: Visitor) -> bool:
    return bool(getattr(user, "is_staff", False))
