"""A page and its part at one address."""

import pytest


@pytest.mark.parametrize(
    ("headers", "whole"),
    [
        ({}, True),
        ({"HX-Request": "true"}, False),
        ({"HX-Request": "true", "HX-History-Restore-Request": "true"}, True),
    ],
)
@pytest.mark.parametrize("address", ["when/", "week/"])
def test_htmx_gets_the_part_and_going_back_the_page(cast, as_user, address, headers, whole):
    response = as_user(cast.coordinator).get(f"/g/linden-row/{address}", headers=headers)

    assert response.status_code == 200
    assert ("<html" in response.content.decode()) == whole
    assert "HX-Request" in response.headers["Vary"]
