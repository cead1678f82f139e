"""The form with which somebody asks a neighbour to look after their plot."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plots.forms.days import day_input
from plots.models import Assignment, Garden, User


class StandInForm(forms.Form):
    assignment = forms.ModelChoiceField(Assignment.objects.none(), label=_("Plot"), empty_label=None)
    person = forms.ModelChoiceField(User.objects.none(), label=_("Who"))
    first_day = forms.DateField(label=_("From"), widget=day_input())
    last_day = forms.DateField(label=_("Until"), widget=day_input())
    note = forms.CharField(
        label=_("What to do"), required=False, max_length=300,
        help_text=_("Water on dry days; pick the beans before they get stringy."),
    )  # fmt: skip

    def __init__(self, *args: Any, garden: Garden, held: Sequence[Assignment], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        own = {person.pk for one in held for person in [one.holder, *one.co_gardeners.all()]}
        plots = self.fields["assignment"]
        plots.queryset = Assignment.objects.filter(pk__in=[one.pk for one in held]).select_related("plot")
        plots.label_from_instance = lambda one: str(one.plot)
        if len(held) == 1:
            plots.widget, self.initial["assignment"] = forms.HiddenInput(), held[0].pk
        others = User.objects.active_in(garden).exclude(pk__in=own)
        self.fields["person"].queryset = others
        self.initial.setdefault("first_day", garden.today())
