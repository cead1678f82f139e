"""Answers that are let go of once they were looked at."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.core.signals import request_finished
from django.db import close_old_connections
from django.http import HttpResponseBase


@contextmanager
def looked_at(response: HttpResponseBase) -> Iterator[HttpResponseBase]:
    """Closes the files of an answer, but not the connection whose transaction the test is in."""
    try:
        yield response
    finally:
        request_finished.disconnect(close_old_connections)
        response.close()
        request_finished.connect(close_old_connections)
