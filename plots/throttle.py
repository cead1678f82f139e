"""How many failed attempts at signing in are borne before everybody has to wait."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from hashlib import sha256

WINDOW = timedelta(minutes=15)


@dataclass(frozen=True, slots=True)
class Counter:
    """One thing that is counted: a digest of what it is, and the failures borne within `WINDOW`."""

    key: str
    limit: int


def counters(account: str, address: str) -> tuple[Counter, ...]:
    """What an attempt at `account` from `address` counts against.

    The pair is strict; the address alone is wide, because a whole workday may share one connection, and so is
    the account alone, because a stranger must not be able to shut a member out by trying their name.
    """
    return (
        Counter(_digest("pair", account, address), limit=10),
        Counter(_digest("address", address), limit=60),
        Counter(_digest("account", account), limit=100),
    )


def guesses(address: str) -> Counter:
    """What wrong codes of stakes from `address` count against."""
    return Counter(_digest("stake", address), limit=60)


def _digest(*parts: str) -> str:
    return sha256("\0".join(parts).encode()).hexdigest()


def client_address(peer: str, forwarded_for: str, trusted_proxies: int) -> str:
    """The address of whoever asks, `trusted_proxies` steps before us.

    Each proxy writes at the end of X-Forwarded-For whom it heard from; what stands further left is a claim.

    >>> client_address("10.0.0.1", "6.6.6.6, 203.0.113.9", 1)
    '203.0.113.9'
    >>> client_address("203.0.113.9", "6.6.6.6", 0)
    '203.0.113.9'
    """
    steps = [step.strip() for step in forwarded_for.split(",") if step.strip()]
    if trusted_proxies == 0 or len(steps) < trusted_proxies:
        return peer
    return steps[-trusted_proxies]
