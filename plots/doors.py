"""Project-wide: every address and who may read (GET) and who may send (POST) there, as one table.

`plots.access` decides; this table says what it decides, so that `manage.py access` can print it. The tests
knock at every door as every kind of visitor: an address without a row here, or with a wrong one, fails.
"""

from __future__ import annotations

from enum import Enum, StrEnum

from plots.powers import Power


class Who(StrEnum):
    """The kinds of visitors, from the outside in."""

    NOBODY = "signed out"
    STRANGER = "member of another garden"
    KEEPER = "keeper of the installation"
    OTHER_COORDINATOR = "coordinator of another garden"
    MEMBER = "member"
    CO_GARDENER = "co-gardener"
    HOLDER = "holder"
    HELPER = "helper without the power"
    DEPUTY = "helper with the power"
    COORDINATOR = "coordinator"


class Answer(Enum):
    """What somebody gets, whatever the page then makes of the request."""

    SIGN_IN = "sign-in page"
    MISSING = "404"
    REFUSED = "403"
    NO_METHOD = "405"
    SERVED = "yes"


def answers(rule: str) -> dict[Who, Answer]:
    """What each kind of visitor gets; `run:plots` is `run`, and helpers trusted with plots may, too."""
    name, _, power = rule.partition(":")
    return {**_RULES[name], Who.DEPUTY: Answer.SERVED} if power else _RULES[name]


def answers_at_shared(rule: str) -> dict[Who, Answer]:
    """The same for a plot that all garden: every member looks and logs there, none of them plans it."""
    return answers(_AT_SHARED.get(rule, rule))


def power_of(rule: str) -> Power | None:
    power = rule.partition(":")[2]
    return Power(power) if power else None


def _garden(
    member: Answer, holder: Answer, helper: Answer, *, coordinator: Answer = Answer.SERVED
) -> dict[Who, Answer]:
    """A page inside a garden: outsiders do not know that it exists."""
    return {
        Who.NOBODY: Answer.SIGN_IN,
        Who.STRANGER: Answer.MISSING,
        Who.KEEPER: Answer.MISSING,
        Who.OTHER_COORDINATOR: Answer.MISSING,
        Who.MEMBER: member,
        Who.CO_GARDENER: holder,
        Who.HOLDER: holder,
        Who.HELPER: helper,
        Who.DEPUTY: helper,
        Who.COORDINATOR: coordinator,
    }


_YES, _NO, _NONE = Answer.SERVED, Answer.REFUSED, Answer.MISSING
_RULES: dict[str, dict[Who, Answer]] = {
    "everybody": dict.fromkeys(Who, _YES),
    "nobody at all": dict.fromkeys(Who, _NONE),
    "signed in": {**dict.fromkeys(Who, _YES), Who.NOBODY: Answer.SIGN_IN},
    "keeper": {**dict.fromkeys(Who, _NO), Who.NOBODY: Answer.SIGN_IN, Who.KEEPER: _YES},
    "garden": _garden(_YES, _YES, _YES),
    "oversee": _garden(_NO, _NO, _YES),
    "run": _garden(_NO, _NO, _NO),
    "plot": _garden(_NONE, _YES, _YES),
    "plan": _garden(_NONE, _YES, _NO),
    "log": {**_garden(_NONE, _YES, _NO), Who.DEPUTY: _YES},  # trusted with care or with plots
    "kept log": {**_garden(_NONE, _YES, _NO), Who.DEPUTY: _YES},
    "kept log of a bed of all": {**_garden(_NO, _YES, _NO), Who.DEPUTY: _YES},  # another's is left alone
    "log anywhere": {**_garden(_NO, _NO, _NO), Who.DEPUTY: _YES},  # trusted with care or with plots
    "hold": _garden(_NO, _YES, _NO),  # who holds the plot, and coordinators
    "own": _garden(_NONE, _NONE, _NONE, coordinator=_NONE),  # the one person it is about, nobody in the cast
    "kept sheet": _garden(_NONE, _NONE, _NONE),  # coordinators, and whoever printed it
    "no such method": {**dict.fromkeys(Who, Answer.NO_METHOD), Who.NOBODY: Answer.SIGN_IN},
    "no such method for anybody": dict.fromkeys(Who, Answer.NO_METHOD),
}

_AT_SHARED = {"plot": "garden", "log": "garden", "plan": "hold", "kept log": "kept log of a bed of all"}

# Each address: the rule for reading, the rule for sending.
DOORS: dict[str, tuple[str, str]] = {
    "plots:home": ("everybody", "no such method for anybody"),
    "plots:sign_in": ("everybody", "everybody"),
    "plots:link": ("everybody", "everybody"),
    "plots:sign_out": ("no such method for anybody", "everybody"),
    "plots:first_visit": ("nobody at all", "nobody at all"),
    "plots:account": ("signed in", "signed in"),
    "plots:who": ("everybody", "no such method for anybody"),
    "plots:phone": ("everybody", "no such method for anybody"),
    "plots:worker": ("everybody", "no such method for anybody"),
    "plots:manifest": ("everybody", "no such method for anybody"),
    "plots:live": ("everybody", "no such method for anybody"),
    "plots:ready": ("everybody", "no such method for anybody"),
    "plots:garden_new": ("keeper", "keeper"),
    "plots:garden": ("garden", "no such method"),
    "plots:set_up": ("run", "no such method"),
    "plots:set_up_later": ("no such method", "run"),
    "plots:set_up_place": ("run", "run"),
    "plots:set_up_units": ("run", "run"),
    "plots:set_up_plots": ("run", "run"),
    "plots:set_up_season": ("run", "run"),
    "plots:set_up_rules": ("run", "run"),
    "plots:garden_settings": ("run:settings", "run:settings"),
    "plots:rules": ("garden", "no such method"),
    "plots:rules_edit": ("run:settings", "run:settings"),
    "plots:history": ("run", "no such method"),
    "plots:change_undo": ("no such method", "run:settings"),  # as the change: settings, plots, people …
    "plots:season_new": ("run:plots", "run:plots"),
    "plots:season_edit": ("run:plots", "run:plots"),
    "plots:plots": ("garden", "no such method"),
    "plots:plot_new": ("run:plots", "run:plots"),
    "plots:plot": ("plot", "no such method"),
    "plots:plot_edit": ("run:plots", "run:plots"),
    "plots:plot_retire": ("no such method", "run:plots"),
    "plots:stake_renew": ("no such method", "run:plots"),
    "plots:plot_restore": ("no such method", "run:plots"),
    "plots:site_map": ("garden", "no such method"),
    "plots:site_edit": ("run:plots", "run:plots"),
    "plots:site_rows": ("run:plots", "run:plots"),
    "plots:site_arrange": ("run:plots", "run:plots"),
    "plots:site_walk": ("run:plots", "run:plots"),
    "plots:feature_new": ("run:plots", "run:plots"),
    "plots:feature_edit": ("run:plots", "run:plots"),
    "plots:feature_remove": ("no such method", "run:plots"),
    "plots:plot_holder": ("run:plots", "run:plots"),
    "plots:plot_free": ("no such method", "run:plots"),
    "plots:members": ("garden", "no such method"),
    "plots:member_new": ("run:people", "run:people"),
    "plots:member_known": ("no such method", "run:people"),
    "plots:member": ("run:people", "run"),
    "plots:member_edit": ("run:people", "run:people"),
    "plots:paper_consent": ("run", "run"),
    "plots:member_link": ("no such method", "run:people"),
    "plots:member_link_post": ("no such method", "run:people"),
    "plots:member_leave": ("no such method", "run"),
    "plots:link_ask": ("everybody", "everybody"),
    "plots:roster_import": ("run:people", "run:people"),
    "plots:people_left": ("run", "no such method"),
    "plots:person_forget": ("no such method", "run"),
    "plots:own_part": ("garden", "garden"),
    "plots:co_gardeners": ("run:plots", "run:plots"),
    "plots:households": ("run:people", "no such method"),
    "plots:duties": ("garden", "no such method"),
    "plots:duty_new": ("run:people", "run:people"),
    "plots:duty_edit": ("run:people", "run:people"),
    "plots:duty_remove": ("no such method", "run:people"),
    "plots:whereabouts": ("garden", "no such method"),
    "plots:whereabout_new": ("run:settings", "run:settings"),
    "plots:whereabout_edit": ("run:settings", "run:settings"),
    "plots:whereabout_remove": ("no such method", "run:settings"),
    # care, in private
    "plots:care": ("run:care", "no such method"),
    "plots:care_begin": ("no such method", "run:care"),
    "plots:care_rounds": ("run:care", "no such method"),
    "plots:care_pauses": ("run:care", "no such method"),
    "plots:care_round": ("run:care", "no such method"),
    "plots:care_stop": ("run:care", "run:care"),
    "plots:finding_photo": ("run:care", "no such method"),
    "plots:finding_photo_remove": ("no such method", "run:care"),
    "plots:finding_photo_restore": ("no such method", "run:care"),
    "plots:matters": ("run:care", "no such method"),
    "plots:matter_new": ("no such method", "run:care"),
    "plots:matter": ("run:care", "no such method"),
    "plots:matter_step": ("run:care", "run:care"),
    "plots:matter_step_back": ("no such method", "run:care"),
    "plots:pauses": ("garden", "no such method"),  # one's own
    "plots:pause_new": ("no such method", "hold:care"),
    "plots:pause_end": ("no such method", "hold:care"),
    "plots:stand_ins": ("garden", "garden"),  # one's own
    "plots:stand_in_end": ("no such method", "hold:care"),
    # notices
    "plots:notices": ("run:notices", "no such method"),
    "plots:notice_new": ("run:notices", "run:notices"),
    "plots:notice": ("run:notices", "no such method"),
    "plots:notice_edit": ("run:notices", "run:notices"),
    "plots:notice_give": ("no such method", "run:notices"),
    "plots:delivery_mark": ("no such method", "run:notices"),
    # the waiting list
    "plots:waiting": ("run:waiting", "no such method"),
    "plots:waiting_left": ("run:waiting", "no such method"),
    "plots:waiting_new": ("run:waiting", "run:waiting"),
    "plots:waiting_entry": ("run:waiting", "no such method"),
    "plots:waiting_edit": ("run:waiting", "run:waiting"),
    "plots:waiting_leave": ("no such method", "run:waiting"),
    "plots:waiting_return": ("no such method", "run:waiting"),
    "plots:choices": ("run:waiting", "no such method"),
    "plots:choice_new": ("run:waiting", "run:waiting"),
    "plots:choice_edit": ("run:waiting", "run:waiting"),
    "plots:offer_new": ("run:waiting", "run:waiting"),
    "plots:offer": ("run:waiting", "no such method"),
    "plots:offer_answer": ("no such method", "run:waiting"),
    "plots:offer_send": ("no such method", "run:waiting"),
    "plots:offer_told": ("no such method", "run:waiting"),
    "plots:offer_extend": ("no such method", "run:waiting"),
    "plots:offer_withdraw": ("no such method", "run:waiting"),
    "plots:interest_new": ("run:waiting", "run:waiting"),
    "plots:interest": ("run:waiting", "no such method"),
    "plots:interest_answer": ("no such method", "run:waiting"),
    "plots:interest_send": ("no such method", "run:waiting"),
    "plots:interest_close": ("no such method", "run:waiting"),
    "plots:waiting_own": ("garden", "no such method"),
    "plots:join": ("everybody", "everybody"),  # where the garden opened it; its members always
    "plots:place": ("everybody", "no such method for anybody"),
    "plots:place_offer": ("no such method for anybody", "everybody"),
    "plots:place_interest": ("no such method for anybody", "everybody"),
    "plots:place_leave": ("no such method for anybody", "everybody"),
    # the season turn
    "plots:turn": ("run:plots", "no such method"),
    "plots:round_new": ("run:plots", "run:plots"),
    "plots:round": ("run:plots", "run:plots"),
    "plots:round_answer": ("run:plots", "run:plots"),
    "plots:renewal_undo": ("no such method", "run:plots"),
    "plots:round_remind": ("no such method", "run:plots"),
    "plots:round_close": ("no such method", "run:plots"),
    "plots:proposals": ("run:plots", "no such method"),
    "plots:renewal_move": ("no such method", "run:plots"),
    "plots:own_season": ("garden", "garden"),
    "plots:hand_over": ("run:plots", "run:plots"),
    "plots:reopen": ("no such method", "run:plots"),
    "plots:dues": ("run:money", "no such method"),
    "plots:dues_draw_up": ("no such method", "run:money"),
    "plots:due_new": ("run:money", "run:money"),
    "plots:dues_part": ("run:money", "no such method"),
    "plots:due_part": ("run:money", "run:money"),
    "plots:due": ("run:money", "run:money"),
    "plots:agreement": ("garden", "garden"),
    "plots:signatures": ("run:people", "no such method"),
    "plots:signed_on_paper": ("no such method", "run:people"),
    "plots:signature_back": ("no such method", "run:people"),
    "plots:agreement_versions": ("run:settings", "no such method"),
    "plots:agreement_version": ("run:settings", "no such method"),
    "plots:agreement_version_new": ("no such method", "run:settings"),
    "plots:agreement_in_force": ("no such method", "run:settings"),
    "plots:agreement_text_new": ("run:settings", "run:settings"),
    "plots:agreement_text": ("run:settings", "run:settings"),
    "plots:workdays": ("garden", "no such method"),
    "plots:workday_new": ("run:workdays", "run:workdays"),
    "plots:workday": ("garden", "no such method"),
    "plots:workday_people": ("run:workdays", "no such method"),
    "plots:workday_edit": ("run:workdays", "run:workdays"),
    "plots:workday_hold": ("no such method", "run:workdays"),
    "plots:workday_sheet": ("run:workdays", "run:workdays"),
    "plots:task_join": ("no such method", "garden"),
    "plots:task_leave": ("no such method", "garden"),
    "plots:make_up_jobs": ("garden", "no such method"),
    "plots:make_up_job_new": ("run:workdays", "run:workdays"),
    "plots:make_up_job_edit": ("run:workdays", "run:workdays"),
    "plots:make_up_job_close": ("no such method", "run:workdays"),
    "plots:make_up_job_done": ("no such method", "run:workdays"),
    "plots:hours": ("run:workdays", "no such method"),
    "plots:hours_own": ("garden", "no such method"),
    "plots:hours_person": ("run:workdays", "run:workdays"),
    "plots:hours_excuse": ("no such method", "run:workdays"),
    "plots:hours_remove": ("no such method", "run:workdays"),
    "plots:hours_restore": ("no such method", "run:workdays"),
    "plots:dates": ("garden", "no such method"),
    "plots:date_new": ("run:workdays", "run:workdays"),
    "plots:date_edit": ("run:workdays", "run:workdays"),
    "plots:date_remove": ("no such method", "run:workdays"),
    "plots:date_restore": ("no such method", "run:workdays"),
    "plots:dates_copy": ("no such method", "run:workdays"),
    "plots:dates_ics": ("everybody", "no such method for anybody"),
    "crops:crops": ("garden", "no such method"),
    "crops:crop_new": ("run:settings", "run:settings"),
    "crops:crop": ("garden", "no such method"),
    "crops:crop_edit": ("run:settings", "run:settings"),
    "crops:crop_remove": ("no such method", "run:settings"),
    "crops:variety_new": ("run:settings", "run:settings"),
    "crops:variety": ("garden", "no such method"),
    "crops:variety_edit": ("run:settings", "run:settings"),
    "crops:variety_remove": ("no such method", "run:settings"),
    "schedules:week": ("garden", "no such method"),
    "schedules:when": ("garden", "no such method"),
    "schedules:when_crop": ("garden", "no such method"),
    "schedules:chance": ("garden", "no such method"),
    "schedules:fits": ("garden", "no such method"),
    "schedules:nerve": ("garden", "garden"),
    "schedules:plan": ("plot", "no such method"),
    "schedules:planting_add": ("plan", "no such method"),
    "schedules:planting_new": ("plan", "plan"),
    "schedules:planting": ("plot", "no such method"),
    "schedules:planting_edit": ("plan", "plan"),
    "schedules:planting_remove": ("no such method", "plan"),
    "schedules:planting_restore": ("no such method", "plan"),
    "schedules:at_plot": ("everybody", "no such method for anybody"),
    "schedules:type_logs": ("log anywhere", "log anywhere"),
    "schedules:log_new": ("garden", "garden"),  # each person sees there the plots that they may log at
    "schedules:log": ("plot", "no such method"),
    "schedules:log_edit": ("kept log", "kept log"),
    "schedules:log_remove": ("no such method", "kept log"),
    "schedules:log_restore": ("no such method", "kept log"),
    "schedules:diary": ("garden", "no such method"),  # each person reads there the logs that they may see
    "schedules:figures": ("garden", "no such method"),
    "schedules:plot_diary": ("plot", "no such method"),
    "schedules:glance": ("plot", "no such method"),
    "schedules:measures": ("garden", "no such method"),
    "schedules:measure_hose": ("run:settings", "run:settings"),
    "schedules:measure_bunch": ("run:settings", "run:settings"),
    "schedules:measure_can": ("run:settings", "run:settings"),
    "schedules:measure_remove": ("no such method", "run:settings"),
    "schedules:measure_restore": ("no such method", "run:settings"),
    "schedules:log_photo_add": ("kept log", "kept log"),
    "schedules:log_photo_edit": ("kept log", "kept log"),
    "schedules:log_photo_remove": ("no such method", "kept log"),
    "schedules:log_photo_restore": ("no such method", "kept log"),
    "schedules:log_photo": ("plot", "no such method"),
    "schedules:waters": ("garden", "no such method"),
    "schedules:water": ("plot", "no such method"),
    "schedules:rain": ("garden", "garden"),
    "schedules:rain_remove": ("no such method", "run:settings"),  # and whoever read the gauge
    "schedules:guidance": ("garden", "no such method"),
    "schedules:guidance_new": ("run:care", "run:care"),
    "schedules:guidance_edit": ("run:care", "run:care"),
    "schedules:guidance_remove": ("no such method", "run:care"),
    "schedules:guidance_restore": ("no such method", "run:care"),
    "schedules:sightings": ("run:care", "no such method"),
    "schedules:sighting": ("run:care", "no such method"),
    "schedules:sighting_sure": ("no such method", "run:care"),
    "schedules:sighting_word": ("run:care", "run:care"),
    "schedules:treatments": ("run:care", "no such method"),
    "schedules:feed": ("garden", "no such method"),
    "schedules:feed_make": ("no such method", "garden"),
    "schedules:feed_revoke": ("no such method", "garden"),
    "schedules:feed_ics": ("everybody", "no such method for anybody"),
    "schedules:workshops": ("garden", "no such method"),
    "schedules:workshop_new": ("run:workdays", "run:workdays"),
    "schedules:workshop": ("garden", "no such method"),
    "schedules:workshop_edit": ("run:workdays", "run:workdays"),
    "schedules:workshop_pack": ("run:workdays", "run:workdays"),
    "schedules:workshop_came": ("run:workdays", "run:workdays"),
    "schedules:workshop_remove": ("no such method", "run:workdays"),
    "schedules:workshop_restore": ("no such method", "run:workdays"),
    "schedules:print_table": ("garden", "no such method"),  # each person sees there what they may print
    "schedules:print_kind": ("garden", "garden"),  # a sheet for every member; others ask for a power
    "schedules:print_file": ("garden", "no such method"),
    "schedules:printed": ("garden", "no such method"),  # one's own; coordinators see all
    "schedules:printing": ("kept sheet", "no such method"),
    "schedules:printing_pdf": ("kept sheet", "no such method"),
    "schedules:printing_next": ("no such method", "kept sheet"),
    "schedules:printing_remove": ("no such method", "kept sheet"),
    "schedules:own_data": ("signed in", "no such method"),
    "schedules:invitation_card": ("no such method", "run:people"),
    "schedules:letter": ("garden", "garden"),
    "schedules:hand_over": ("run", "no such method"),
    "schedules:set_up_frost": ("run", "run"),
    "schedules:frost": ("garden", "no such method"),
    "schedules:frost_source": ("garden", "no such method"),
    "schedules:frost_import": ("run:settings", "run:settings"),
    "schedules:frost_table": ("run:settings", "run:settings"),
    "schedules:frost_mean": ("run:settings", "run:settings"),
    "schedules:frost_offset": ("run:settings", "run:settings"),
    "schedules:offset_accept": ("no such method", "run:settings"),
    "schedules:stations": ("garden", "run:settings"),
    "schedules:frost_years": ("no such method", "run:settings"),
    "schedules:frost_year": ("garden", "no such method"),
    "schedules:readings": ("garden", "garden"),
    "schedules:readings_all": ("garden", "no such method"),
    "schedules:readings_import": ("run:settings", "run:settings"),
    "schedules:logger_remove": ("run:settings", "run:settings"),
    "schedules:reading_remove": ("no such method", "run:settings"),  # and whoever read the thermometer
    "schedules:taught": ("garden", "no such method"),
    "schedules:taught_set": ("no such method", "run:settings"),
    "schedules:frost_tonight": ("garden", "no such method"),
    "schedules:frost_notice": ("no such method", "run:notices"),
    "schedules:losses": ("garden", "garden"),
    "schedules:dates_before": ("garden", "no such method"),
    "schedules:dates_moved": ("plot", "no such method"),
    "schedules:frost_use": ("no such method", "run:settings"),
    "schedules:frost_remove": ("no such method", "run:settings"),
}
