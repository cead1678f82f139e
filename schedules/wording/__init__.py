"""Translated words for results: operations, reasons, calendars and station files."""

from __future__ import annotations

from schedules.wording.operations import edge_name, operation_name
from schedules.wording.reasons import Told, reason_sentence, tell

__all__ = ["Told", "edge_name", "operation_name", "reason_sentence", "tell"]
