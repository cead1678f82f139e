"""What a phone keeps so that Trugbook opens without signal."""

from __future__ import annotations

# Run by the service worker itself.
WORKER_FILES = ("js/outbox.js", "js/worker.js")

# What every page is drawn with, and what the page of this phone needs.
FILES = (
    "favicon.svg",
    "trug.svg",  # beside the name, drawn by a style sheet
    "css/tokens.css",
    "css/base.css",
    "css/forms.css",
    "css/charts.css",
    "css/year.css",
    "css/log.css",
    "css/print.css",
    "django_htmx/htmx-2.min.js",
    "js/outbox.js",
    "js/shrink.js",
    "js/log.js",
    "js/log_form.js",
    "js/phone.js",
    "js/kept.js",
)

# Pages that are kept when they have been open, by their path after the root; lists of people and money never.
KEPT_PAGES = (
    r"^$",
    r"^g/[^/]+/(week|log|when|crops|map|where|dates|frost)/$",
    r"^g/[^/]+/(when|crops)/[^/]+/$",
    r"^g/[^/]+/logs/\d+/$",
    r"^g/[^/]+/plots/\d+/((plan|diary|water)/)?$",
    r"^g/[^/]+/plantings/\d+/$",
)

# What a stake's code opens, by its path after the root; without signal the kept form of a log at its plot.
STAKE = r"^at/([^/]+)/$"

# The logs that stand behind a long press on the icon, by `schedules.work.Work`.
SHORTCUTS = ("water", "harvest", "weed", "note")
