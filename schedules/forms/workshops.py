"""The forms of a workshop: when and where, what is handed out, how many came."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from crops.models import Crop, Workshop
from crops.models.workshop import MOST_PEOPLE
from crops.queries import crops_for
from crops.wording.names import crop_label
from plots.forms.days import day_input, time_input
from plots.forms.garden import offer_languages
from plots.forms.quantities import NumberField
from plots.models import Garden
from plots.spelling import name_key
from schedules.wording.topics import TOPICS


class WorkshopForm(forms.ModelForm):
    """When, where, and for how many."""

    expected = NumberField(
        label=_("People expected"), required=False, whole=True, lowest=0, highest=MOST_PEOPLE
    )

    class Meta:
        model = Workshop
        fields = [
            "title", "on", "starts_at", "ends_at", "place", "language", "expected", "note", "names", "public",
        ]  # fmt: skip
        widgets = {
            "on": day_input(),
            "starts_at": time_input(),
            "ends_at": time_input(),
            "note": forms.Textarea(attrs={"rows": 3}),
            "names": forms.Textarea(attrs={"rows": 4}),
        }
        help_texts = {
            "note": _("What to bring, for instance. Members read it."),
            "names": _(
                "One on a line. Blank tags come along for whoever else comes. The names go once it is"
                " written down how many came."
            ),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        offer_languages(self)

    def clean(self) -> dict[str, Any]:
        """Says beside its field what the database would only refuse."""
        cleaned = super().clean() or {}
        starts, ends = cleaned.get("starts_at"), cleaned.get("ends_at")
        if ends and not starts and "starts_at" not in self.errors:
            self.add_error("starts_at", _now("Say when it starts, too."))
        elif starts and ends and ends <= starts:
            self.add_error("ends_at", _now("It must end after it starts."))
        return cleaned


class _CropsField(forms.ModelMultipleChoiceField):
    def label_from_instance(self, crop: Crop) -> str:
        return crop_label(crop)


class PackForm(forms.Form):
    """Which sheets, and of which crops they tell."""

    topics = forms.MultipleChoiceField(
        label=_("Sheets"), required=False, widget=forms.CheckboxSelectMultiple,
        help_text=_("Each fills two sides of one sheet of paper at most."),
    )  # fmt: skip
    crops = _CropsField(
        Crop.objects.none(), label=_("Crops that the sheets tell of"), required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text=_("With none chosen, the sheets tell of what is planned in the garden this year."),
    )  # fmt: skip
    title_page = forms.BooleanField(label=_("Begin with a title page"), required=False)

    def __init__(self, *args: Any, garden: Garden, workshop: Workshop, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["topics"].choices = [(code, topic.name) for code, topic in TOPICS.items()]
        crops = self.fields["crops"]
        crops.queryset = crops_for(garden)
        by_name = sorted(crops.queryset, key=lambda crop: name_key(crop_label(crop)))
        crops.choices = [(crop.pk, crop_label(crop)) for crop in by_name]
        self.initial.setdefault("topics", workshop.topics)
        self.initial.setdefault("crops", list(workshop.crops.values_list("pk", flat=True)))
        self.initial.setdefault("title_page", workshop.title_page)


class AttendanceForm(forms.Form):
    """How many came: nothing is not nobody."""

    attended = NumberField(
        label=_("People who came"), required=False, whole=True, lowest=0, highest=MOST_PEOPLE,
        help_text=_("Count the lines of the sign-in sheet. Left empty: nobody knows. 0: nobody came."),
    )  # fmt: skip
