"""Words for what stands on a phone outside of any page."""

from __future__ import annotations

from django.utils.translation import gettext as _


def shortcut_text(work: str) -> str:
    """What a shortcut of the installed app is called; `work` is one of `plots.phone.SHORTCUTS`."""
    return {
        "water": _("Watered"),
        "harvest": _("Picked"),
        "weed": _("Weeded"),
        "note": _("A note"),
    }[work]
