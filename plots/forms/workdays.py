"""Forms of workdays, make-up jobs and hours."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.forms.days import day_input, time_input
from plots.hours import DAY, HoursError, parse_minutes
from plots.models import Garden, User, Workday, WorkTask
from plots.queries import SheetRow
from plots.sign_in_sheet import Came, Known, read_lines
from plots.wording.hours import fault_text, hours_text, typed_hours

CAME_WHOLE = ("x", "X", "✓", "v")


class MinutesField(forms.CharField):
    """A time worked, typed as people write it; cleaned to minutes."""

    default_error_messages = {
        "unreadable": gettext_lazy(
            "“%(typed)s” cannot be read as a time worked. Write it like 2.5, 2:30, 45 min or 9-11:30."
        ),
    }

    def __init__(self, *, most: int = DAY, **kwargs: Any) -> None:
        super().__init__(max_length=40, **kwargs)
        self.most = most

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            return parse_minutes(text, most=self.most)
        except HoursError:
            raise forms.ValidationError(
                self.error_messages["unreadable"], "unreadable", {"typed": text}
            ) from None

    def prepare_value(self, value: Any) -> Any:
        return typed_hours(value) if isinstance(value, int) else value


class WorkdayForm(forms.ModelForm):
    class Meta:
        model = Workday
        fields = ["name", "day", "rain_day", "starts_at", "ends_at", "place", "note"]
        widgets = {
            "day": day_input(),
            "rain_day": day_input(),
            "starts_at": time_input(),
            "ends_at": time_input(),
            "note": forms.Textarea(attrs={"rows": 3}),
        }
        help_texts = {"note": gettext_lazy("What to bring, for instance. Members read it.")}

    def clean(self) -> dict[str, Any]:
        """Says beside its field what the database would only refuse."""
        cleaned = super().clean() or {}
        day, rain_day = cleaned.get("day"), cleaned.get("rain_day")
        if day and rain_day and rain_day <= day:
            self.add_error("rain_day", _("The rain date must come after the day itself."))
        if self.instance.held == "rain" and "rain_day" in cleaned and rain_day is None:
            self.add_error("rain_day", _("It takes place on the rain date, so it needs one."))
        starts, ends = cleaned.get("starts_at"), cleaned.get("ends_at")
        if starts and ends and ends <= starts:
            self.add_error("ends_at", _("It must end after it starts."))
        return cleaned


class TaskForm(forms.ModelForm):
    class Meta:
        model = WorkTask
        fields = ["name", "place", "places"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["places"].help_text = ""


class _Tasks(forms.BaseInlineFormSet):
    def add_fields(self, form: forms.ModelForm, index: int | None) -> None:
        super().add_fields(form, index)
        form.fields["DELETE"].label = _("Take it off")

    def clean(self) -> None:
        super().clean()
        for form in self.forms:
            row = form.instance
            if (
                self._should_delete_form(form)
                and row.pk
                and (row.sign_ups.exists() or row.hours_done.exists())
            ):
                form.add_error(None, _("Somebody is down for “%(task)s”, so it stays.") % {"task": row})


TaskForms = forms.inlineformset_factory(
    Workday, WorkTask, form=TaskForm, formset=_Tasks, extra=4, max_num=60, absolute_max=60, can_delete=True
)


class MakeUpJobForm(forms.ModelForm):
    minutes = MinutesField(
        label=gettext_lazy("Hours it counts"), help_text=gettext_lazy("For each person who does it.")
    )

    class Meta:
        model = WorkTask
        fields = ["name", "place", "minutes", "places", "due_on", "note"]
        widgets = {"due_on": day_input(), "note": forms.Textarea(attrs={"rows": 3})}
        labels = {"name": gettext_lazy("What there is to do")}


class PersonForm(forms.Form):
    """Somebody whom a coordinator puts down for a task, perhaps called by telephone."""

    person = forms.ModelChoiceField(User.objects.none(), label=gettext_lazy("Member"))
    task = forms.ModelChoiceField(WorkTask.objects.none(), label=gettext_lazy("Task"), empty_label=None)

    def __init__(self, garden: Garden, workday: Workday, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["person"].queryset = User.objects.active_in(garden)
        self.fields["task"].queryset = workday.tasks.all()


class HoursForm(forms.Form):
    """Work that was done on no workday."""

    day = forms.DateField(label=gettext_lazy("Day"), widget=day_input())
    minutes = MinutesField(label=gettext_lazy("Hours"))
    what = forms.CharField(
        label=gettext_lazy("What was done"), max_length=160,
        help_text=gettext_lazy("Also what the garden counts instead of work: “brought the compost”."),
    )  # fmt: skip

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = garden.today()
        self.fields["day"].initial = self.today

    def clean_day(self) -> Any:
        day = self.cleaned_data["day"]
        if day > self.today:
            raise forms.ValidationError(_("This day is still to come."))
        return day


class ExcuseForm(forms.Form):
    """From how much somebody is excused; why is not asked."""

    scope = forms.ChoiceField(
        label=gettext_lazy("Excused from"),
        choices=[
            ("none", gettext_lazy("nothing")),
            ("all", gettext_lazy("all hours of this season")),
            ("some", gettext_lazy("so many hours:")),
        ],
        widget=forms.RadioSelect,
    )
    minutes = MinutesField(label=gettext_lazy("Hours excused"), required=False, most=DAY * 30)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if cleaned.get("scope") == "some" and "minutes" in cleaned and not cleaned["minutes"]:
            self.add_error("minutes", _("Say how many hours."))
        return cleaned

    @property
    def excused(self) -> int | None:
        """Minutes; `None` for all of them."""
        return {"none": 0, "all": None}.get(self.cleaned_data["scope"], self.cleaned_data["minutes"])


class SheetForm(forms.Form):
    """A sign-in sheet typed in from paper: a time for each name on it, and lines for everybody else."""

    others = forms.CharField(
        label=gettext_lazy("Others who came"),
        required=False,
        strip=False,
        max_length=20_000,
        widget=forms.Textarea(attrs={"rows": 6, "autocomplete": "off", "spellcheck": "false"}),
    )

    def __init__(
        self, rows: Sequence[SheetRow], known: Sequence[Known], guests: Sequence[str], usual: int, *args: Any
    ) -> None:
        super().__init__(*args)
        self.rows, self.known, self.guests, self.usual = rows, known, guests, usual
        self.came: list[Came] = []
        for row in rows:
            self.fields[_name(row)] = forms.CharField(
                label=row.person.name, required=False, max_length=40, initial=typed_hours(row.minutes)
            )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        for row in self.rows:
            text = cleaned.get(_name(row), "")
            try:
                cleaned[_name(row)] = self.usual if text in CAME_WHOLE else _minutes(text)
            except HoursError:
                error = _("“%(typed)s” cannot be read as a time worked.") % {"typed": text}
                self.add_error(_name(row), error)
        stand = [row.person.pk for row in self.rows]
        self.came, faults = read_lines(
            cleaned.get("others", ""), self.known, usual=self.usual, taken=stand, guests=self.guests
        )
        for fault in faults:
            self.add_error("others", fault_text(fault))
        return cleaned

    def lines(self) -> list[tuple[SheetRow, forms.BoundField]]:
        """Each name with its field, in the order of the printed sheet."""
        return [(row, self[_name(row)]) for row in self.rows]

    @property
    def minutes(self) -> dict[int, int | None]:
        return {row.person.pk: self.cleaned_data[_name(row)] for row in self.rows}

    @property
    def usual_text(self) -> str:
        return hours_text(self.usual)


def _name(row: SheetRow) -> str:
    return f"came-{row.person.pk}"


def _minutes(text: str) -> int | None:
    return parse_minutes(text) if text and text not in ("-", "0") else None
