"""What to print for which plots: stakes, or sheets to write logs on."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from plots.forms.quantities import NumberField
from plots.models import Plot
from plots.spelling import natural_key
from schedules.forms.logs import KeysField
from schedules.queries.logs import SeveralPlots
from schedules.reports.label_sheets import SHEETS, Labels
from schedules.wording.logs import several_text
from schedules.wording.stakes import LARGE_LOG_SHEETS, print_choices


class StakesForm(forms.Form):
    """Chosen by address, so that the page and its PDF are asked for alike."""

    what = forms.ChoiceField(label=_("What to print"))
    rows = KeysField(label=_("Together"), required=False, widget=forms.CheckboxSelectMultiple)
    plots = KeysField(label=_("Plots"), required=False, widget=forms.CheckboxSelectMultiple)
    first = NumberField(
        label=_("Begin at label"), required=False, whole=True, lowest=1, highest=30,
        help_text=_("Of a sheet that is partly used: 1 is the upper left, then along the row."),
    )  # fmt: skip
    outlines = forms.BooleanField(
        label=_("Draw the labels' edges, to try it on plain paper first"), required=False
    )
    backs = forms.BooleanField(
        label=_("Cards on both sides of the paper, turned over the long edge"), required=False
    )

    def __init__(
        self, *args: Any, plots: list[Plot], together: list[SeveralPlots], paper: str, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.all_plots = plots
        self.fields["what"].choices = print_choices(paper)
        self.fields["rows"].choices = [(one.value, several_text(one)) for one in together]
        self.fields["plots"].choices = [
            (plot.pk, plot.label) for plot in sorted(plots, key=lambda plot: natural_key(plot.label))
        ]

    @property
    def labels(self) -> Labels | None:
        """The kind of sheet; `None` where logs are to be written."""
        return SHEETS.get(self.cleaned_data["what"])

    @property
    def chosen(self) -> list[Plot]:
        """The plots, in the order of the walk."""
        keys = self.cleaned_data["rows"] | self.cleaned_data["plots"]
        return [plot for plot in self.all_plots if plot.pk in keys]

    @property
    def in_large_print(self) -> bool:
        return self.cleaned_data["what"] == LARGE_LOG_SHEETS

    @property
    def begins_at(self) -> int:
        return self.cleaned_data["first"] or 1

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if "rows" in cleaned and "plots" in cleaned and not self.chosen:
            self.add_error("plots", _now("Choose at least one plot."))
        labels = SHEETS.get(cleaned.get("what", ""))
        if labels is None or labels.cut:
            cleaned["first"], cleaned["outlines"] = None, False
            self.errors.pop("first", None)
        elif (cleaned.get("first") or 1) > labels.count:
            words = {"count": labels.count}
            self.add_error("first", _now("Such a sheet has only %(count)d labels.") % words)
        if labels is None or not labels.cut:
            cleaned["backs"] = False
        return cleaned
