"""What is asked before a sheet is printed: of all choices those that its kind names.

The form is filled in by an address, so that a link can bring choices along; what the address does not say is
as usual. Only what somebody sent with the form itself (`asked`) is taken as it is, unticked boxes too.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any
from urllib.parse import urlencode

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
from schedules.queries.logs import plots_together
from schedules.reports.label_sheets import SHEETS, Labels
from schedules.seasons import Hemisphere
from schedules.service.print_table.table import Asked, GuestPlace, Kind
from schedules.wording.logs import several_text
from schedules.wording.print_table import day_words, text_words
from schedules.wording.stakes import label_choices
from schedules.years import span_of, year_of

EVERYONE, PLOTS = "everyone", "plots"
HERE, GUEST = "here", "guest"
SENT = "asked"  # stands in an address that the form itself made
LONGEST_CROPS = 60  # as many as a handout still has room for
_FOR_MEMBERS = frozenset({"member", PLOTS})
_GUEST = ("place_name", "last_frost", "first_frost")
_SHORT = frozenset({"year", "since", "until", "week", "paper", "language", "large"})


class PrintForm(forms.Form):
    """The choices of one kind; with `user` as `None` those of who sits at the installation itself."""

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

    @classmethod
    def again(cls, asked: Mapping[str, Sequence[str]], **rest: Any) -> PrintForm:
        """The form as it was filled in for a kept sheet."""
        return cls(MultiValueDict({key: list(values) for key, values in asked.items()}), **rest)

    @property
    def kept(self) -> dict[str, list[str]]:
        """What it was filled in with, to be kept."""
        found = {name: [str(one) for one in self.data.getlist(name)] for name in self.fields}
        return {**{name: values for name, values in found.items() if values}, SENT: ["1"]}

    @property
    def query(self) -> str:
        """The query of an address that fills the form in as it is."""
        return self.address_of(self.kept)

    @staticmethod
    def address_of(asked: Mapping[str, Sequence[str]]) -> str:
        """The query of an address that fills a form in as it was for a kept sheet."""
        return urlencode(dict(asked), doseq=True)

    @property
    def sent_again(self) -> list[tuple[str, str]]:
        """Name and value of everything it is filled in with, for a button of its own."""
        return [(name, value) for name, values in self.kept.items() for value in values]

    @property
    def crops_in_words(self) -> str:
        chosen = {str(value) for value in self.data.getlist("crops")}
        return ", ".join(str(name) for pk, name in self.fields["crops"].choices if str(pk) in chosen)

    @property
    def first_fields(self) -> list[forms.BoundField]:
        """What the sheet is about."""
        return [field for field in self if field.name not in _SHORT]

    @property
    def short_fields(self) -> list[forms.BoundField]:
        """When and how: what stands side by side where there is room."""
        return [field for field in self if field.name in _SHORT]

    @property
    def for_everyone(self) -> bool:
        return bool(self.cleaned_data.get("member") == EVERYONE)

    @property
    def unfinished(self) -> bool:
        """Whether a choice has only just opened further fields, which nobody has seen yet."""
        return self._shows_guest() and not self._told & set(_GUEST)

    @property
    def wants_more(self) -> bool:
        """Whether it only lacks what nobody has chosen yet, or could choose: there is no workday, no text."""
        return not self.sent and bool(self.errors) and not any(name in self._told for name in self.errors)

    def members(self) -> list[User]:
        """Whom everyone's sheets are for, by name."""
        rows = self.garden.memberships.filter(user__is_active=True).select_related("user")
        return sorted((row.user for row in rows), key=lambda one: (name_key(one.name), one.pk))

    def asked(self) -> Asked:
        """A valid form, as a kind takes it."""
        cleaned = self.cleaned_data
        choices = {name: cleaned[name] for name in _TAKEN if name in cleaned}
        if "member" in self.kind.asks:
            choices["member"] = self._member(cleaned["member"])
        if PLOTS in self.kind.asks:
            choices[PLOTS] = self._chosen_plots() if PLOTS in self.fields else None
        if "place" in self.kind.asks:
            choices["place"] = self._place(cleaned)
        labels = cleaned.get("labels")
        return Asked(
            garden=self.garden,
            user=self.user,
            today=self.today,
            paper=SHEETS[labels].paper if labels else cleaned["paper"],
            language=cleaned.get("language") or get_language() or settings.LANGUAGE_CODE,
            large=cleaned.get("large", False),
            choices=choices,
        )

    def asked_for(self, member: User) -> Asked:
        """A valid form for everyone, as it is for one of them."""
        asked = self.asked()
        choices = {**asked.choices, "member": member}
        return replace(asked, choices=choices, language=member.language or asked.language)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if (
            PLOTS in self.fields
            and PLOTS in cleaned
            and "rows" in cleaned
            and not self._chosen_plots(cleaned)
        ):
            self.add_error(PLOTS, _now("Choose at least one plot."))
        since, until = cleaned.get("since"), cleaned.get("until")
        if since and until and until < since:
            self.add_error("until", _now("This day must not come before the first one."))
        if self._shows_guest() and not self.unfinished:
            self._clean_guest(cleaned)
        if "labels" in self.fields:
            self._clean_labels(cleaned)
        return cleaned

    def _clean_guest(self, cleaned: dict[str, Any]) -> None:
        if not {"last_frost", "first_frost"} & self.errors.keys() and not (
            cleaned.get("last_frost") or cleaned.get("first_frost")
        ):
            self.add_error("last_frost", _now("Write at least one of the two frost dates."))

    def _clean_labels(self, cleaned: dict[str, Any]) -> None:
        labels: Labels | None = SHEETS.get(cleaned.get("labels", ""))
        if labels is None:
            return
        if labels.cut:
            cleaned["first"], cleaned["outlines"] = None, False
            self.errors.pop("first", None)
        else:
            cleaned["backs"] = False
            if (cleaned.get("first") or 1) > labels.count:
                words = {"count": labels.count}
                self.add_error("first", _now("Such a sheet has only %(count)d labels.") % words)

    # --- what each choice adds ---

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
        first, last = span_of(year_of(self.today, self._side), self._side)
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
        if len(chosen) > LONGEST_CROPS:
            words = {"count": LONGEST_CROPS}
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
        if len(settings.LANGUAGES) > 1:
            language = forms.ChoiceField(label=_("Language"), choices=settings.LANGUAGES)
            self._add("language", language, [get_language()])


_ADDERS: Mapping[str, Callable[[PrintForm], None]] = {
    "member": PrintForm._add_member,
    PLOTS: PrintForm._add_plots,
    "year": PrintForm._add_year,
    "period": PrintForm._add_period,
    "week": PrintForm._add_week,
    "folded": PrintForm._add_folded,
    "crops": PrintForm._add_crops,
    "workshop": PrintForm._add_workshop,
    "workday": PrintForm._add_workday,
    "notice": PrintForm._add_notice,
    "text": PrintForm._add_text,
    "place": PrintForm._add_place,
    "labels": PrintForm._add_labels,
}
_TAKEN = (
    "year", "since", "until", "week", "folded", "crops", "workshop", "workday", "notice", "text",
    "labels", "first", "outlines", "backs",
)  # fmt: skip


def _list(data: Mapping[str, Any], key: str) -> list[Any]:
    if isinstance(data, MultiValueDict):
        return data.getlist(key)
    value = data[key]
    return list(value) if isinstance(value, list | tuple) else [value]


def _next_of(rows: Any, field: str, today: date) -> Any:
    """The next one, or while none is ahead the last."""
    return rows.filter(**{f"{field}__gte": today}).order_by(field).first() or rows.order_by(field).last()
