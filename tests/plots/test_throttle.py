import pytest

from plots.throttle import client_address, counters


@pytest.mark.parametrize(
    ("peer", "forwarded", "trusted", "address"),
    [
        ("203.0.113.9", "", 0, "203.0.113.9"),
        ("203.0.113.9", "1.1.1.1", 0, "203.0.113.9"),  # no proxy is trusted, so the header is only a claim
        ("10.0.0.1", "203.0.113.9", 1, "203.0.113.9"),
        ("10.0.0.1", "1.1.1.1, 203.0.113.9", 1, "203.0.113.9"),
        ("10.0.0.2", "1.1.1.1, 203.0.113.9, 10.0.0.1", 2, "203.0.113.9"),
        ("10.0.0.1", "", 1, "10.0.0.1"),
        ("10.0.0.1", " , ", 1, "10.0.0.1"),
    ],
)
def test_the_address_is_the_one_the_last_trusted_proxy_saw(peer, forwarded, trusted, address):
    assert client_address(peer, forwarded, trusted) == address


def test_what_is_counted_keeps_accounts_and_addresses_apart():
    mine, theirs = counters("ann", "10.0.0.1"), counters("bo", "10.0.0.1")
    assert mine[0] != theirs[0]
    assert mine[1] == theirs[1]
    assert counters("ab", "c")[0] != counters("a", "bc")[0]
    assert [counter.limit for counter in mine] == [10, 60, 100]
