"""The garden's guidance about pests and damage, and the private word about something seen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from plots.forms.quantities import QuantityField
from plots.forms.several import SeveralField
from plots.models import User
from plots.quantities import Quantity
from schedules.models import Guidance
from schedules.queries import guidance_of

_FURTHEST_M = 10_000.0
_STEPS = ("signs", "tolerate", "prevent", "by_hand", "ask")


class GuidanceForm(forms.ModelForm):
    """Advice about one thing, mildest first: when to leave it has to be said before anything else."""

    class Meta:
        model = Guidance
        fields: ClassVar[list[str]] = [
            "thing", "signs", "tolerate", "prevent", "by_hand", "ask", "reach_m", "source",
        ]  # fmt: skip
        widgets: ClassVar[dict[str, Any]] = {name: forms.Textarea(attrs={"rows": 3}) for name in _STEPS}
        help_texts: ClassVar[dict[str, Any]] = {
            "thing": _("As members would call it: aphids, holes in cabbage leaves, white dust on squash."),
            "tolerate": _("What does no harm worth a treatment, and for how long to wait."),
            "ask": _("Who is asked first. Name no product and no dose: the label in hand decides."),
            "source": _("An extension office, a book, the garden's own years."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["reach_m"] = QuantityField(
            quantity=Quantity.LENGTH,
            units=self.instance.garden.units,
            label=_now("How far it may reach"),
            required=False,
            lowest=0.0,
            highest=_FURTHEST_M,
            help_text=_now("Plots so near are proposed for a private word; left empty: 10 metres (33 feet)."),
        )
        self.order_fields(self.Meta.fields)

    def clean_thing(self) -> str:
        thing: str = self.cleaned_data["thing"]
        same = guidance_of(self.instance.garden).filter(thing_folded=thing).exclude(pk=self.instance.pk)
        if same.exists():
            raise forms.ValidationError(_now("This garden already has guidance about it."))
        return thing


class SureForm(forms.Form):
    """Who made sure what it is: a plant clinic, an extension office, somebody who knows."""

    confirmed_by = forms.CharField(
        label=_("Made sure by"),
        max_length=120,
        help_text=_("A plant clinic, the extension office, somebody who knows. Empty it to take it back."),
        required=False,
    )


class WordForm(forms.Form):
    """A private word: to whom, and what."""

    subject = forms.CharField(label=_("Subject"), max_length=120)
    body = forms.CharField(
        label=_("Text"),
        max_length=5000,
        widget=forms.Textarea(attrs={"rows": 12}),
        help_text=_("It names nobody and no plot: what flies or creeps is nobody's fault."),
    )
    people = SeveralField(User.objects.none(), label=_("To"))

    def __init__(self, data: Any, *, people: Sequence[User], draft: dict[str, str]) -> None:
        super().__init__(data, initial={**draft, "people": [person.pk for person in people]})
        self.fields["people"].queryset = User.objects.filter(pk__in=[person.pk for person in people])
