"""What a helper meets on the pages: their own powers' links, and no way to more."""

import pytest

from plots.models import Membership, Role, User
from tests.texts import text_of


@pytest.mark.parametrize(
    ("powers", "seen"),
    [([], []), (["plots"], ["The ground"]), (["settings"], ["How it is run"]), (["people"], ["Members"])],
)
def test_the_garden_page_leads_to_what_a_helper_may_run(cast, as_user, powers, seen):
    Membership.objects.filter(user=cast.helper).update(powers=powers)
    page = text_of(as_user(cast.helper).get("/g/linden-row/"))
    assert ("Running the garden" in page) is bool(powers)
    assert [title for title in ("The ground", "How it is run") if title in page] == [
        t for t in seen if t != "Members"
    ]


def test_a_helper_adds_members_but_no_coordinator(cast, as_user):
    Membership.objects.filter(user=cast.helper).update(powers=["people"])
    client = as_user(cast.helper)
    assert (
        client.post("/g/linden-row/members/new/", {"name": "Ada", "role": "coordinator"}).status_code == 422
    )
    assert not User.objects.filter(name="Ada").exists()
    assert client.post("/g/linden-row/members/new/", {"name": "Ada", "role": "member"}).status_code == 302
    assert Membership.objects.get(user__name="Ada").role == Role.MEMBER


def test_a_helper_gives_nobody_powers(cast, as_user):
    Membership.objects.filter(user=cast.helper).update(powers=["people"])
    own = Membership.objects.get(user=cast.helper)
    answer = as_user(cast.helper).post(f"/g/linden-row/members/{own.pk}/", {"role": "coordinator"})
    own.refresh_from_db()
    assert (answer.status_code, own.role, own.powers) == (403, Role.HELPER, ["people"])
