"""One live address each, however often and however fast the button is pressed."""

from __future__ import annotations

from plots.models import User
from schedules.models import CalendarFeed
from schedules.service import make_feed
from tests.concurrency import at_once
from tests.factories import MembershipFactory


def test_two_presses_at_once_leave_one_address(many_connections) -> None:
    membership = MembershipFactory()

    def press(user: User) -> CalendarFeed:
        return make_feed(user=user, garden=membership.garden)

    made = at_once(press, [membership.user] * 4)
    assert [type(answer) for answer in made] == [CalendarFeed] * 4
    assert len({feed.token for feed in made}) == 4
    live = CalendarFeed.objects.filter(revoked_at__isnull=True)
    assert live.count() == 1
    assert live.get().token in {feed.token for feed in made}
