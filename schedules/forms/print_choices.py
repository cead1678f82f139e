"""The choices that kinds of sheets ask for, each as its fields with what usually stands in them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from django import forms
from django.conf import settings
from django.utils.datastructures import MultiValueDict
from django.utils.translation import get_language
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from crops.models import Workshop
from crops.models.planting import FIRST_YEAR, LAST_YEAR
from crops.queries import crops_for
from crops.wording.names import crop_name
from plots.access import may_run
from plots.forms.days import KeptMonthDayField
from plots.forms.quantities import NumberField
from plots.models import AgreementText, Garden, Paper, Plot, User
from plots.powers import Power
from plots.queries import agreement_of, gardened_plots, plots_in_walk_order, text_for
from plots.spelling import name_key, natural_key
from schedules.access import workshops_to_see
from schedules.entries import planning_year
from schedules.forms.choosing import DayField
from schedules.forms.logs import KeysField
from schedules.jobs import monday_of
from schedules.models import WorkLog
from schedules.queries.diary import latest_day
from schedules.queries.logs import plots_together
from schedules.reports.label_sheets import SHEETS
from schedules.seasons import Hemisphere
from schedules.service.print_table.table import GuestPlace, Kind
from schedules.wording.logs import several_text
from schedules.wording.print_table import day_words, text_words
from schedules.wording.stakes import label_choices
from schedules.years import span_of, year_of

EVERYONE, PLOTS = "everyone", "plots"
HERE, GUEST = "here", "guest"
SENT = "asked"  # stands in an address that the form itself made
MOST_CROPS = 60  # as many as a handout still has room for
FROSTS = ("last_frost", "first_frost")  # of a guest's place


class PrintChoices(forms.Form):
    """The fields of one kind; with `user` as `None` those of who sits at the installation itself."""

    def __init__(
        self,
        data: Mapping[str, Any],
        *,
        kind: Kind,
        garden: Garden,
        user: User | None,
        today: date | None = None,
    ) -> None:
        self.kind, self.garden, self.user = kind, garden, user
        self.today = today or garden.today()
        self._side = Hemisphere.of_latitude(garden.latitude)
        super().__init__()
        self.sent, self._told = data.get(SENT) == "1", frozenset(data)
        self.data = MultiValueDict({key: _list(data, key) for key in data})
        self.is_bound = True
        for ask in kind.asks:
            _ADDERS[ask](self)
        self._add_paper()

    def members(self) -> list[User]:
        """Whom everyone's sheets are for, by name."""
        rows = self.garden.memberships.filter(user__is_active=True).select_related("user")
        return sorted((row.user for row in rows), key=lambda one: (name_key(one.name), one.pk))

    def _add(self, name: str, field: forms.Field, usual: Sequence[Any] = ()) -> None:
        """A field, and what stands in it where the address does not say otherwise."""
        self.fields[name] = field
        if name not in self.data and not self.sent:
            self.data.setlist(name, list(usual))

    def _add_member(self) -> None:
        others = self.kind.others is not None and (
            self.user is None or self.kind.others(self.user, self.garden)
        )
        people = [] if self.user is None else [(str(self.user.pk), _now("me"))]
        if others:
            people += [(str(one.pk), one.name) for one in self.members() if one != self.user]
        groups: list[tuple[str, Any]] = list(people)
        if others and self.kind.kept:
            groups.insert(0, (EVERYONE, _now("everyone, in one file")))
        if PLOTS in self.kind.asks:
            groups.append((PLOTS, _now("certain plots")))
        usual = EVERYONE if self.user is None else str(self.user.pk)
        if PLOTS in self.data and "member" not in self.data and PLOTS in self.kind.asks:
            usual = PLOTS
        field = forms.ChoiceField(
            label=_("For whom"),
            choices=groups,
            error_messages={"invalid_choice": _("Choose somebody whose sheet you may print.")},
        )
        self._add("member", field, [usual])

    def _add_plots(self) -> None:
        if "member" in self.kind.asks and self.data.get("member") != PLOTS:
            return
        allowed = (
            gardened_plots(self.garden)
            if self.user is None
            else self.kind.plots(self.user, self.garden).filter(retired_on__isnull=True)
        )
        self.all_plots: list[Plot] = plots_in_walk_order(allowed, self.garden)
        together = plots_together(self.garden, self.all_plots)
        rows = KeysField(label=_("Together"), required=False, widget=forms.CheckboxSelectMultiple)
        rows.choices = [(one.value, several_text(one)) for one in together]
        plots = KeysField(label=_("Plots"), required=False, widget=forms.CheckboxSelectMultiple)
        plots.choices = [
            (plot.pk, plot.label) for plot in sorted(self.all_plots, key=lambda one: natural_key(one.label))
        ]
        asked = PLOTS in self.data
        self._add("rows", rows, [] if asked else [one.value for one in together[-1:]])
        self._add(PLOTS, plots, [] if together else [plot.pk for plot in self.all_plots])

    def _chosen_plots(self, cleaned: Mapping[str, Any] | None = None) -> list[Plot]:
        """In the order of the walk."""
        found = self.cleaned_data if cleaned is None else cleaned
        keys = found["rows"] | found[PLOTS]
        return [plot for plot in self.all_plots if plot.pk in keys]

    def _member(self, word: str) -> User | None:
        if word in (EVERYONE, PLOTS):
            return None
        found: User = User.objects.get(pk=word)
        return found

    def _add_year(self) -> None:
        field = NumberField(label=_("Year"), whole=True, lowest=FIRST_YEAR + 1, highest=LAST_YEAR - 1)
        self._add("year", field, [planning_year(self.today, self._side)])

    def _add_period(self) -> None:
        """Of the latest year that has a log; before there is one, of the present year."""
        day = latest_day(WorkLog.objects.standing().filter(garden=self.garden)) or self.today
        first, last = span_of(year_of(day, self._side), self._side)
        self._add("since", DayField(label=_("From")), [first.isoformat()])
        self._add("until", DayField(label=_("Until")), [last.isoformat()])

    def _add_week(self) -> None:
        field = DayField(label=_("Week of"), help_text=_("Any day of it."))
        self._add("week", field, [self.today.isoformat()])

    def clean_week(self) -> date:
        return monday_of(self.cleaned_data["week"])

    def _add_folded(self) -> None:
        field = forms.BooleanField(
            label=_("As a booklet to fold"),
            required=False,
            help_text=_("Two pages on each side of a sheet, in the order for folding."),
        )
        self._add("folded", field)

    def _add_crops(self) -> None:
        found = crops_for(self.garden)
        named = sorted((crop_name(crop.name), crop.pk) for crop in found)
        self._crops = {crop.pk: crop for crop in found}
        field = KeysField(
            label=_("Crops"),
            required=False,
            help_text=_("None ticked: the usual ones."),
            widget=forms.CheckboxSelectMultiple,
        )
        field.choices = [(pk, name) for name, pk in named]
        self._add("crops", field)

    def clean_crops(self) -> list[Any]:
        chosen = [crop for pk, crop in self._crops.items() if pk in self.cleaned_data["crops"]]
        if len(chosen) > MOST_CROPS:
            words = {"count": MOST_CROPS}
            raise forms.ValidationError(_now("Choose %(count)d crops or fewer.") % words)
        return sorted(chosen, key=lambda crop: crop_name(crop.name))

    def _add_one(
        self, name: str, label: Any, rows: Any, usual: Any, words: Callable[[Any], str] = str
    ) -> None:
        field = forms.ModelChoiceField(rows, label=label, empty_label=None)
        field.label_from_instance = words  # type: ignore[method-assign]
        self._add(name, field, [usual.pk] if usual else [])

    def _add_workshop(self) -> None:
        every = Workshop.objects.standing().filter(garden=self.garden)
        rows = every if self.user is None else workshops_to_see(self.user, self.garden)
        self._add_one("workshop", _("Workshop"), rows, _next_of(rows, "on", self.today), day_words("on"))

    def _add_workday(self) -> None:
        rows = self.garden.workdays.order_by("day")
        self._add_one("workday", _("Workday"), rows, _next_of(rows, "day", self.today), day_words("day"))

    def _add_notice(self) -> None:
        rows = self.garden.notices.order_by("-made_at")
        self._add_one("notice", _("Notice"), rows, rows.first())

    def _add_text(self) -> None:
        """Texts that are in force or were; drafts too for who writes them."""
        rows = AgreementText.objects.filter(version__garden=self.garden).select_related("version")
        if self.user is not None and not may_run(self.user, self.garden, Power.SETTINGS):
            rows = rows.filter(version__in_force_on__isnull=False)
        version = agreement_of(self.garden)
        usual = text_for(version, get_language() or "", self.garden) if version else None
        self._add_one("text", _("Which text"), rows.order_by("-version__number", "pk"), usual, text_words)

    def _add_place(self) -> None:
        field = forms.ChoiceField(
            label=_("For which place"),
            choices=[(HERE, self.garden.name), (GUEST, _now("a guest's own garden"))],
            widget=forms.RadioSelect,
        )
        self._add("place", field, [HERE])
        if not self._shows_guest():
            return
        frost_help = _now("As in “May 10”. Leave out what is not known; one of the two is enough.")
        self._add("place_name", forms.CharField(label=_("Name of the place"), required=False, max_length=60))
        self._add("last_frost", KeptMonthDayField(label=_("Last frost in spring"), required=False))
        self._add(
            "first_frost",
            KeptMonthDayField(label=_("First frost in autumn"), required=False, help_text=frost_help),
        )

    def _shows_guest(self) -> bool:
        return "place" in self.kind.asks and self.data.get("place") == GUEST

    def _place(self, cleaned: Mapping[str, Any]) -> GuestPlace | None:
        if not self._shows_guest():
            return None
        name = cleaned["place_name"] or _now("your garden")
        return GuestPlace(name, cleaned["last_frost"], cleaned["first_frost"])

    def _add_labels(self) -> None:
        field = forms.ChoiceField(label=_("What to print on"), choices=label_choices(self.garden.paper))
        self._add("labels", field, [field.choices[0][1][0][0]])
        first = NumberField(
            label=_("Begin at label"),
            required=False,
            whole=True,
            lowest=1,
            highest=30,
            help_text=_("Of a sheet that is partly used: 1 is the upper left, then along the row."),
        )
        backs = _("Cards on both sides of the paper, turned over the long edge")
        outlines = _("Draw the labels' edges, to try it on plain paper first")
        labels = SHEETS.get(self.data.get("labels", ""))
        if labels is None or not labels.cut:
            self._add("first", first)
            self._add("outlines", forms.BooleanField(label=outlines, required=False))
        if labels is None or labels.cut:
            self._add("backs", forms.BooleanField(label=backs, required=False))

    def _add_paper(self) -> None:
        if "labels" not in self.kind.asks:
            field = forms.ChoiceField(label=_("Paper"), choices=Paper.choices)
            self._add("paper", field, [self.garden.paper])
        if self.kind.large:
            large = forms.BooleanField(label=_("In large print"), required=False)
            self._add("large", large)
        if self._several():
            both_sides = forms.BooleanField(
                label=_("For both sides of the paper"),
                required=False,
                help_text=_("Each begins on a new sheet of paper."),
            )
            self._add("both_sides", both_sides)
        if len(settings.LANGUAGES) > 1:
            language = forms.ChoiceField(label=_("Language"), choices=settings.LANGUAGES)
            self._add("language", language, [self._readers_language()])

    def _several(self) -> bool:
        """Whether it is about several people or plots, as far as is chosen."""
        if "member" in self.kind.asks:
            return self.data.get("member") in (EVERYONE, PLOTS)
        return self.kind.several

    def _readers_language(self) -> str:
        """Whose sheet it is reads it; else who prints it."""
        word = self.data.get("member") or ""
        reader = User.objects.filter(pk=word).first() if word.isdecimal() and len(word) < 18 else None
        return (reader.language if reader else "") or get_language() or settings.LANGUAGE_CODE


_ADDERS: Mapping[str, Callable[[PrintChoices], None]] = {
    "member": PrintChoices._add_member,
    PLOTS: PrintChoices._add_plots,
    "year": PrintChoices._add_year,
    "period": PrintChoices._add_period,
    "week": PrintChoices._add_week,
    "folded": PrintChoices._add_folded,
    "crops": PrintChoices._add_crops,
    "workshop": PrintChoices._add_workshop,
    "workday": PrintChoices._add_workday,
    "notice": PrintChoices._add_notice,
    "text": PrintChoices._add_text,
    "place": PrintChoices._add_place,
    "labels": PrintChoices._add_labels,
}


def _list(data: Mapping[str, Any], key: str) -> list[Any]:
    if isinstance(data, MultiValueDict):
        return data.getlist(key)
    value = data[key]
    return list(value) if isinstance(value, list | tuple) else [value]


def _next_of(rows: Any, field: str, today: date) -> Any:
    """The next one, or while none is ahead the last."""
    return rows.filter(**{f"{field}__gte": today}).order_by(field).first() or rows.order_by(field).last()
