"""The form of a log: one form for every kind of work; what does not belong to the chosen one is not asked."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.db.models import Q
from django.utils.choices import normalize_choices
from django.utils.datastructures import MultiValueDict
from django.utils.text import capfirst
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from crops.facts import MOST_SUCCESSIONS
from crops.models import Crop, Planting
from crops.wording.names import crop_name
from plots.access import may_run, plots_to_log
from plots.forms.days import day_input
from plots.forms.photos import PhotosField
from plots.forms.quantities import NumberField
from plots.forms.workdays import MinutesField
from plots.models import Garden, Plot, User
from plots.powers import Power
from plots.spelling import folded
from schedules.forms.scouting import ScoutingFields
from schedules.models import HoseFlow, WorkChoice, WorkLog
from schedules.plausible import UNITS, Doubt
from schedules.queries.logs import LogChoices
from schedules.wording.logs import doubt_sentence, planting_text, several_text, unit_choices
from schedules.work import OF_A_PLANTING, Work

_CROPS = OF_A_PLANTING | {Work.SCOUT, Work.TREAT, Work.CLEAR, Work.NOTE}
_PLANTINGS = _CROPS | {Work.FEED, Work.MULCH, Work.SUPPORT}
# By field the work it belongs to; a field that is not here belongs to all of it.
ASKED_FOR: Mapping[str, frozenset[str]] = {
    "planting": _PLANTINGS,
    "succession": OF_A_PLANTING | {Work.CLEAR},
    "crop": _CROPS,
    "amount": frozenset(UNITS),
    "unit": frozenset(UNITS),
    "hose": frozenset({Work.WATER}),
    "minutes": frozenset({Work.HOURS}),
    "given_away": frozenset({Work.PICK}),
    "given_to": frozenset({Work.PICK}),
    **dict.fromkeys(("seen", "seen_on", "severity"), frozenset({Work.SCOUT})),
    **dict.fromkeys(("product", "label_days", "asked", "label_read"), frozenset({Work.TREAT})),
}
_PARTS = (
    ("planting",), ("succession",), ("crop",), ("amount", "unit"), ("hose",), ("minutes",),
    ("given_away", "given_to"), ("seen", "seen_on", "severity"),
    ("product", "label_days", "asked", "label_read"), ("day",), ("note",),
)  # fmt: skip
# By work the fields of which one must be told; a phone asks for it before it keeps what would be refused.
_NEEDED: Mapping[Work, tuple[str, ...]] = {
    **dict.fromkeys(OF_A_PLANTING, ("planting", "crop")),
    Work.HOURS: ("minutes",),
    Work.NOTE: ("note",),
}
_LABELS = re.compile(r"[,;\n]")


@dataclass(frozen=True)
class Part:
    """Fields that stand together, and for which work they are asked."""

    name: str
    fields: Sequence[forms.BoundField]
    works: str

    @property
    def is_short(self) -> bool:
        """Whether its fields fit on one line."""
        return self.name in {"amount", "given_away"}


class PlotsWidget(forms.CheckboxSelectMultiple):
    """Also understands `plot`, as a button for one plot sends it."""

    def value_from_datadict(self, data: Any, files: Any, name: str) -> Any:
        if not isinstance(data, MultiValueDict):
            return super().value_from_datadict(data, files, name)
        return [value for value in [*data.getlist(name), *data.getlist("plot")] if value]


class KeysField(forms.MultipleChoiceField):
    """Plots by their keys; whether one may log there is asked of the database, not of what was offered."""

    widget = PlotsWidget

    def valid_value(self, value: str) -> bool:
        return all(part.isdecimal() and len(part) < 18 for part in value.split("-"))

    def clean(self, value: Any) -> set[int]:
        return {int(part) for one in super().clean(value) for part in one.split("-")}


class LogFields(ScoutingFields):
    """What every log tells, new or changed."""

    work = forms.ChoiceField(label=_("What was done"), choices=[])
    planting = forms.ModelChoiceField(
        Planting.objects.none(), label=_("Planting"), required=False,
        error_messages={"invalid_choice": _("This planting is no longer in the plan.")},
    )  # fmt: skip
    succession = NumberField(
        label=_("Which sowing"), required=False, whole=True, lowest=1, highest=MOST_SUCCESSIONS,
        help_text=_("1 is the first. Empty: the next one; all that stood when cleared or lost to frost."),
    )  # fmt: skip
    crop = forms.ModelChoiceField(
        Crop.objects.none(), label=_("Or the crop, when it is in no plan"), required=False
    )
    amount = NumberField(label=_("How much"), required=False)
    unit = forms.ChoiceField(label=_("Counted in"), required=False)
    hose = forms.ModelChoiceField(HoseFlow.objects.none(), label=_("Hose or tap"), required=False)
    minutes = MinutesField(
        label=_("How long"), required=False, help_text=_("Hours like 2.5 or 2:30, or 45 min, or 9-11:30.")
    )
    given_away = forms.BooleanField(label=_("Given away"), required=False)
    given_to = forms.CharField(label=_("To whom"), required=False, max_length=120)
    day = forms.DateField(label=_("Day"), required=False, widget=day_input())
    note = forms.CharField(
        label=_("Note"), required=False, max_length=4000, widget=forms.Textarea(attrs={"rows": 2})
    )
    person = forms.ModelChoiceField(User.objects.none(), label=_("Who did it"), required=False)

    def __init__(self, *args: Any, choices: LogChoices, garden: Garden, by: User, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.choices, self.garden, self.by = choices, garden, by
        self.allowed = plots_to_log(by, garden, late=True)
        self.fields["work"].choices = [(value, capfirst(label)) for value, label in WorkChoice.choices]
        self.fields["unit"].choices = unit_choices(garden.units)
        self._offer(
            "planting", Planting.objects.filter(plot__in=self.allowed, removed_at=None), self._plantings
        )
        self._offer("crop", Crop.objects.filter(Q(garden=None) | Q(garden=garden)), self._crops)
        self._offer("hose", HoseFlow.objects.filter(garden=garden), self._hoses)
        self._offer("person", User.objects.filter(memberships__garden=garden), self._people)
        self.fields["day"].widget.attrs["max"] = garden.today().isoformat()

    def _offer(self, name: str, rows: Any, offered: Any) -> None:
        """Shows few and takes any: what was offered yesterday may be sent today."""
        field = self.fields[name]
        field.queryset = rows.distinct()
        field.widget.choices = normalize_choices(offered)

    def _plantings(self) -> list[tuple[object, object]]:
        groups: dict[str, list[tuple[object, object]]] = {}
        this_year = self.garden.today().year
        for planting in self._offered():
            name = _now("Plot %(plot)s") % {"plot": planting.plot}
            groups.setdefault(name, []).append((planting.pk, planting_text(planting, this_year)))
        return [("", _now("none in particular")), *groups.items()]

    def _offered(self) -> list[Planting]:
        """What is planned for next year comes last."""
        this_year = self.garden.today().year
        return sorted(self.choices.plantings, key=lambda planting: planting.year > this_year)

    def _crops(self) -> list[tuple[object, object]]:
        named = sorted((crop_name(crop.name), crop.pk) for crop in self.fields["crop"].queryset)
        return [("", "—"), *((pk, name) for name, pk in named)]

    def _hoses(self) -> list[tuple[object, object]]:
        return [("", _now("not measured")), *((hose.pk, hose.name) for hose in self.choices.hoses)]

    def _people(self) -> list[tuple[object, object]]:
        others = [(one.pk, one.name) for one in self.choices.people if one.pk != self.by.pk]
        return [("", _now("I did")), *others]

    @property
    def parts(self) -> list[Part]:
        """The fields below the plots, in the order of the page."""
        hidden = set() if self.choices.hoses else {"hose"}
        several = any(planting.successions > 1 for planting in self.choices.plantings)
        if not several and not self["succession"].value():
            hidden.add("succession")
        found = []
        for names in _PARTS:
            fields = [self[name] for name in names if name in self.fields and name not in hidden]
            if fields:
                found.append(Part(names[0], fields, " ".join(sorted(ASKED_FOR.get(names[0], ())))))
        return found

    @property
    def needs(self) -> dict[str, Any]:
        """By work what it cannot be without, and how to ask for it."""
        words = {
            Work.HOURS: doubt_sentence(Doubt("minutes", "how-long"), ""),
            Work.NOTE: _now("Write the note."),
        }
        return {
            work.value: {"fields": fields, "words": words.get(work) or self._which(work)}
            for work, fields in _NEEDED.items()
        }

    @staticmethod
    def _which(work: Work) -> str:
        return doubt_sentence(Doubt("planting", "which-planting", {"work": work.value}), "")

    @property
    def asks_who(self) -> bool:
        return len(self.choices.people) > 1

    def clean_day(self) -> Any:
        """A button for one job sends no day and means today."""
        day = self.cleaned_data["day"]
        if day is None and "day" in self.data:
            raise forms.ValidationError(_now("On which day?"))
        return day or self.garden.today()

    def clean(self) -> dict[str, Any]:
        """Leaves out what the chosen work does not ask; asks who may tell about others."""
        cleaned = super().clean() or {}
        work = cleaned.get("work")
        for name, works in ASKED_FOR.items():
            if work and work not in works:
                self.errors.pop(name, None)
                cleaned[name] = False if name in {"given_away", "label_read"} else None
        if cleaned.get("given_to"):
            cleaned["given_away"] = True
        if cleaned.get("planting"):
            cleaned["crop"] = None
        if work == Work.NOTE and not cleaned.get("note") and "note" not in self.errors:
            self.add_error("note", self.needs[Work.NOTE]["words"])
        self._clean_person(cleaned)
        return cleaned

    def _clean_person(self, cleaned: dict[str, Any]) -> None:
        person = cleaned.get("person")
        if person is None or person == self.by:
            return
        if cleaned.get("work") == Work.HOURS and not may_run(self.by, self.garden, Power.WORKDAYS):
            self.add_error(
                "person", _now("Hours of others are written down by who is trusted with workdays.")
            )
        elif person.pk not in {one.pk for one in self.choices.people}:
            self.add_error("person", _now("Choose somebody of these plots."))

    def told(self) -> dict[str, Any]:
        """A valid form as `keep_logs` and `change_log` take it, without the plots."""
        cleaned = self.cleaned_data
        names = ("work", "planting", "succession", "crop", "day", "amount", "hose", "minutes")
        return {
            **{name: cleaned[name] for name in names},
            "unit": cleaned["unit"] or "",
            "given_away": bool(cleaned["given_away"]),
            "given_to": cleaned["given_to"] or "",
            "note": cleaned["note"],
            "person": cleaned["person"] or self.by,
            "seen": self.told_seen(),
            "used": self.told_used(),
        }


class LogForm(LogFields):
    """A new log, at one plot or at several."""

    key = forms.UUIDField(widget=forms.HiddenInput)
    author = forms.CharField(widget=forms.HiddenInput, required=False)
    next = forms.CharField(widget=forms.HiddenInput, required=False)
    plots = KeysField(label=_("Where"), required=False)
    rows = KeysField(label=_("Together"), required=False, widget=forms.CheckboxSelectMultiple)
    labels = forms.CharField(
        label=_("Other plots, by their labels"), required=False, max_length=2000,
        help_text=_("With commas between them: A3, B7. An amount is meant for each of them."),
    )  # fmt: skip
    photos = PhotosField(required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["plots"].choices = self._near
        self.fields["rows"].choices = self._together

    def clean_author(self) -> str:
        """What one person opened is not kept as another's."""
        author: str = self.cleaned_data["author"]
        if author and author != str(self.by.pk):
            raise forms.ValidationError(_now("This page was opened by somebody else. Open it anew."))
        return author

    def _near(self) -> list[tuple[object, object]]:
        """Plots to tick: one's own, what all garden, and those chosen already."""
        chosen = {str(value) for value in self["plots"].value() or []}
        near = self.choices.near
        known = {plot.pk for plot in near}
        found = near + [
            plot for plot in self.choices.plots if str(plot.pk) in chosen and plot.pk not in known
        ]
        return [(plot.pk, _now("Plot %(plot)s") % {"plot": plot}) for plot in found]

    def _together(self) -> list[tuple[object, object]]:
        return [(one.value, several_text(one)) for one in self.choices.together]

    @property
    def stakes(self) -> dict[str, tuple[int, str]]:
        """By the code of its stake the key and label of each plot to choose: so a phone knows it."""
        return {plot.stake_code: (plot.pk, plot.label) for plot in self.choices.plots}

    @property
    def one_plot(self) -> Plot | None:
        """The only plot there is to choose, which need not be asked."""
        plots = self.choices.plots
        return plots[0] if len(plots) == 1 else None

    def clean_labels(self) -> list[Plot]:
        """The plots of these labels; one that is not there is named."""
        typed = _LABELS.split(self.cleaned_data["labels"])
        asked = {label: text.strip() for text in typed if (label := folded(text))}
        known = {folded(plot.label): plot for plot in self.allowed} if asked else {}
        missing = [text for label, text in asked.items() if label not in known]
        if missing:
            words = {"labels": ", ".join(missing)}
            raise forms.ValidationError(_now("You can log at no plot called %(labels)s.") % words)
        return [known[label] for label in asked]

    def clean(self) -> dict[str, Any]:
        """Gathers the plots from ticks, rows and labels."""
        cleaned = super().clean()
        keys = {*cleaned.get("plots", ()), *cleaned.get("rows", ())}
        found = {plot.pk: plot for plot in self.allowed.filter(pk__in=keys)}
        if keys - found.keys():
            self.add_error("plots", _now("You may not write logs at one of these plots, or it is not there."))
        found.update({plot.pk: plot for plot in cleaned.get("labels") or ()})
        planting = cleaned.get("planting")
        if planting and not found:
            found[planting.plot_id] = planting.plot
        cleaned["at"] = list(found.values())
        return cleaned


class LogEditForm(LogFields):
    """A log that is changed: the same questions, at one plot."""

    plot = forms.ModelChoiceField(Plot.objects.none(), label=_("Plot"), required=False)

    def __init__(self, *args: Any, log: WorkLog, **kwargs: Any) -> None:
        self.log = log
        super().__init__(*args, **kwargs)
        own = Q(pk=log.plot_id) if log.plot_id else Q()
        self.fields["plot"].queryset = self.garden.plots.filter(own | Q(pk__in=self.allowed)).distinct()
        self.fields["plot"].label_from_instance = str
        self.fields["plot"].empty_label = _now("none")

    def _offered(self) -> list[Planting]:
        """Also what it is about by now, though that was cleared since."""
        own, offered = self.log.planting, super()._offered()
        return offered if own is None or own in offered else [own, *offered]

    def _people(self) -> list[tuple[object, object]]:
        """Left alone, it stays who it was."""
        was, me = self.log.person, self.by.pk
        if was == self.by:
            return super()._people()
        others = [(one.pk, one.name) for one in self.choices.people if one not in (was, self.by)]
        return [("", was.name), (me, _now("I did")), *others]

    @classmethod
    def initial_of(cls, log: WorkLog) -> dict[str, Any]:
        """What the form opens with."""
        plain = ("work", "succession", "day", "amount", "unit", "minutes", "given_away", "given_to", "note")
        rows = ("plot", "planting", "crop", "hose")
        values = {name: getattr(log, name) for name in plain}
        values.update({name: getattr(log, f"{name}_id") for name in rows})
        if hasattr(log, "sighting"):
            values.update(
                seen=log.sighting.seen, seen_on=log.sighting.seen_on, severity=log.sighting.severity
            )
        if hasattr(log, "treatment"):
            used = log.treatment
            values.update(product=used.product, label_days=used.label_days, asked=used.asked, label_read=True)
        return values

    def told(self) -> dict[str, Any]:
        """As of a new log, with its plot; who did it stays who it was, unless somebody else is chosen."""
        person = self.cleaned_data["person"] or self.log.person
        return {**super().told(), "plot": self.cleaned_data["plot"], "person": person}
