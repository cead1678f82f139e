"""Addresses: the ways in, a garden, its set-up, settings, rules and history."""

from django.urls import path

from plots import health
from plots.views import garden, history, home, phone, rules, set_up, sign_in

urlpatterns = [
    path("", home.home, name="home"),
    path("sign-in/", sign_in.sign_in, name="sign_in"),
    path("link/<str:token>/", sign_in.link, name="link"),
    path("sign-out/", sign_in.sign_out, name="sign_out"),
    path("start/", sign_in.first_visit, name="first_visit"),
    path("account/", sign_in.account, name="account"),
    path("who/", phone.who, name="who"),
    path("phone/", phone.phone, name="phone"),
    path("sw.js", phone.worker, name="worker"),
    path("manifest.webmanifest", phone.manifest, name="manifest"),
    path("health/live", health.live, name="live"),
    path("health/ready", health.ready, name="ready"),
    path("gardens/new/", garden.garden_new, name="garden_new"),
]
in_garden = [
    path("", home.garden, name="garden"),
    path("setup/", set_up.set_up, name="set_up"),
    path("setup/later/", set_up.set_up_later, name="set_up_later"),
    path("setup/place/", set_up.place, name="set_up_place"),
    path("setup/units/", set_up.units, name="set_up_units"),
    path("setup/plots/", set_up.plots, name="set_up_plots"),
    path("setup/season/", set_up.season, name="set_up_season"),
    path("setup/rules/", set_up.rules, name="set_up_rules"),
    path("settings/", garden.garden_settings, name="garden_settings"),
    path("seasons/new/", garden.season_new, name="season_new"),
    path("seasons/<int:pk>/", garden.season_edit, name="season_edit"),
    path("rules/", rules.rules, name="rules"),
    path("rules/<slug:block>/", rules.rules_edit, name="rules_edit"),
    path("history/", history.history, name="history"),
    path("history/<int:pk>/undo/", history.change_undo, name="change_undo"),
]
