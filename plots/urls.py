"""Project-wide: every address of the installation; the one file of plots that looks up to the other apps."""

from django.urls import include, path

from plots import health
from plots.views import (
    agreements,
    care_matters,
    dates,
    dues,
    finding_photos,
    forgetting,
    garden,
    garden_things,
    ground,
    history,
    holding,
    home,
    hours,
    households,
    interest,
    invitations,
    joining,
    make_up,
    notices,
    offers,
    own_part,
    own_season,
    part_dues,
    pauses,
    people,
    phone,
    proposals,
    roster_import,
    rules,
    set_up,
    sharing,
    sign_in,
    site,
    turn,
    waiting,
    workdays,
)
from schedules.views import care  # about the ground, with what logs say of it
from schedules.views import ground as plots_list

way_in = [
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
]
gardens = [
    path("gardens/new/", garden.garden_new, name="garden_new"),
    path("g/<slug:slug>/", home.garden, name="garden"),
    path("g/<slug:slug>/setup/", set_up.set_up, name="set_up"),
    path("g/<slug:slug>/setup/later/", set_up.set_up_later, name="set_up_later"),
    path("g/<slug:slug>/setup/place/", set_up.place, name="set_up_place"),
    path("g/<slug:slug>/setup/units/", set_up.units, name="set_up_units"),
    path("g/<slug:slug>/setup/plots/", set_up.plots, name="set_up_plots"),
    path("g/<slug:slug>/setup/season/", set_up.season, name="set_up_season"),
    path("g/<slug:slug>/setup/rules/", set_up.rules, name="set_up_rules"),
    path("g/<slug:slug>/settings/", garden.garden_settings, name="garden_settings"),
    path("g/<slug:slug>/seasons/new/", garden.season_new, name="season_new"),
    path("g/<slug:slug>/seasons/<int:pk>/", garden.season_edit, name="season_edit"),
    path("g/<slug:slug>/rules/", rules.rules, name="rules"),
    path("g/<slug:slug>/rules/<slug:block>/", rules.rules_edit, name="rules_edit"),
    path("g/<slug:slug>/history/", history.history, name="history"),
    path("g/<slug:slug>/history/<int:pk>/undo/", history.change_undo, name="change_undo"),
]
plots = [
    path("g/<slug:slug>/plots/", plots_list.plots, name="plots"),
    path("g/<slug:slug>/plots/new/", ground.plot_new, name="plot_new"),
    path("g/<slug:slug>/plots/<int:pk>/", ground.plot, name="plot"),
    path("g/<slug:slug>/plots/<int:pk>/edit/", ground.plot_edit, name="plot_edit"),
    path("g/<slug:slug>/plots/<int:pk>/retire/", ground.plot_retire, name="plot_retire"),
    path("g/<slug:slug>/plots/<int:pk>/restore/", ground.plot_restore, name="plot_restore"),
    path("g/<slug:slug>/plots/<int:pk>/holder/", ground.plot_holder, name="plot_holder"),
    path("g/<slug:slug>/plots/<int:pk>/holder/<int:assignment_pk>/end/", ground.plot_free, name="plot_free"),
]
map_pages = [
    path("g/<slug:slug>/map/", site.site_map, name="site_map"),
    path("g/<slug:slug>/map/site/", site.site_edit, name="site_edit"),
    path("g/<slug:slug>/map/rows/", site.site_rows, name="site_rows"),
    path("g/<slug:slug>/map/arrange/", site.site_arrange, name="site_arrange"),
    path("g/<slug:slug>/map/walk/", site.site_walk, name="site_walk"),
    path("g/<slug:slug>/map/things/new/", site.feature_new, name="feature_new"),
    path("g/<slug:slug>/map/things/<int:pk>/", site.feature_edit, name="feature_edit"),
    path("g/<slug:slug>/map/things/<int:pk>/remove/", site.feature_remove, name="feature_remove"),
]
members = [
    path("link/", invitations.ask_for_link, name="link_ask"),
    path("g/<slug:slug>/members/", people.members, name="members"),
    path("g/<slug:slug>/members/new/", people.member_new, name="member_new"),
    path("g/<slug:slug>/members/known/", people.member_known, name="member_known"),
    path("g/<slug:slug>/members/import/", roster_import.roster_import, name="roster_import"),
    path("g/<slug:slug>/members/left/", forgetting.people_left, name="people_left"),
    path("g/<slug:slug>/members/left/<int:pk>/forget/", forgetting.person_forget, name="person_forget"),
    path("g/<slug:slug>/members/me/", own_part.own_part, name="own_part"),
    path("g/<slug:slug>/members/<int:pk>/", people.member, name="member"),
    path("g/<slug:slug>/members/<int:pk>/edit/", people.member_edit, name="member_edit"),
    path("g/<slug:slug>/members/<int:pk>/paper/", own_part.paper_consent, name="paper_consent"),
    path("g/<slug:slug>/members/<int:pk>/link/", invitations.member_link, name="member_link"),
    path("g/<slug:slug>/members/<int:pk>/link/post/", invitations.member_link_post, name="member_link_post"),
    path("g/<slug:slug>/members/<int:pk>/leave/", people.member_leave, name="member_leave"),
    path(
        "g/<slug:slug>/plots/<int:pk>/holder/<int:assignment_pk>/shared/",
        sharing.co_gardeners,
        name="co_gardeners",
    ),
    path("g/<slug:slug>/households/", households.households, name="households"),
    path("g/<slug:slug>/duties/", garden_things.duties, name="duties"),
    path("g/<slug:slug>/duties/new/", garden_things.duty_new, name="duty_new"),
    path("g/<slug:slug>/duties/<int:pk>/", garden_things.duty_edit, name="duty_edit"),
    path("g/<slug:slug>/duties/<int:pk>/remove/", garden_things.duty_remove, name="duty_remove"),
    path("g/<slug:slug>/where/", garden_things.whereabouts, name="whereabouts"),
    path("g/<slug:slug>/where/new/", garden_things.whereabout_new, name="whereabout_new"),
    path("g/<slug:slug>/where/<int:pk>/", garden_things.whereabout_edit, name="whereabout_edit"),
    path("g/<slug:slug>/where/<int:pk>/remove/", garden_things.whereabout_remove, name="whereabout_remove"),
]
turn_pages = [
    path("g/<slug:slug>/turn/", turn.turn, name="turn"),
    path("g/<slug:slug>/turn/ask/", turn.round_new, name="round_new"),
    path("g/<slug:slug>/turn/<int:pk>/", turn.round, name="round"),
    path("g/<slug:slug>/turn/<int:pk>/decide/", turn.round_decide, name="round_decide"),
    path("g/<slug:slug>/turn/<int:pk>/answer/<int:assignment_pk>/", turn.round_answer, name="round_answer"),
    path("g/<slug:slug>/turn/<int:pk>/undo/<int:renewal_pk>/", turn.renewal_undo, name="renewal_undo"),
    path("g/<slug:slug>/turn/<int:pk>/remind/", turn.round_remind, name="round_remind"),
    path("g/<slug:slug>/turn/<int:pk>/close/", turn.round_close, name="round_close"),
    path("g/<slug:slug>/turn/<int:pk>/plots/", proposals.proposals, name="proposals"),
    path("g/<slug:slug>/turn/<int:pk>/move/<int:renewal_pk>/", proposals.renewal_move, name="renewal_move"),
    path("g/<slug:slug>/mine/", own_season.own_season, name="own_season"),
    path(
        "g/<slug:slug>/plots/<int:pk>/holder/<int:assignment_pk>/hand-over/",
        holding.hand_over,
        name="hand_over",
    ),
    path("g/<slug:slug>/plots/<int:pk>/holder/<int:assignment_pk>/reopen/", holding.reopen, name="reopen"),
    path("g/<slug:slug>/dues/", dues.dues, name="dues"),
    path("g/<slug:slug>/dues/draw-up/", dues.dues_draw_up, name="dues_draw_up"),
    path("g/<slug:slug>/dues/new/", dues.due_new, name="due_new"),
    path("g/<slug:slug>/dues/part/", part_dues.dues_part, name="dues_part"),
    path("g/<slug:slug>/dues/part/<int:pk>/", part_dues.due_part, name="due_part"),
    path("g/<slug:slug>/dues/<int:pk>/", dues.due_settle, name="due_settle"),
]
agreement_pages = [
    path("g/<slug:slug>/agreement/", agreements.agreement, name="agreement"),
    path("g/<slug:slug>/agreement/signatures/", agreements.signatures, name="signatures"),
    path("g/<slug:slug>/agreement/paper/", agreements.signed_on_paper, name="signed_on_paper"),
    path(
        "g/<slug:slug>/agreement/signatures/<int:pk>/back/", agreements.signature_back, name="signature_back"
    ),
    path("g/<slug:slug>/agreement/versions/", agreements.versions, name="agreement_versions"),
    path("g/<slug:slug>/agreement/versions/new/", agreements.version_new, name="agreement_version_new"),
    path(
        "g/<slug:slug>/agreement/versions/<int:pk>/in-force/",
        agreements.version_in_force,
        name="agreement_in_force",
    ),
    path(
        "g/<slug:slug>/agreement/versions/<int:pk>/texts/new/", agreements.text_new, name="agreement_text_new"
    ),
    path(
        "g/<slug:slug>/agreement/versions/<int:pk>/texts/<int:text_pk>/",
        agreements.text_edit,
        name="agreement_text",
    ),
]

work_pages = [
    path("g/<slug:slug>/workdays/", workdays.workdays, name="workdays"),
    path("g/<slug:slug>/workdays/new/", workdays.workday_new, name="workday_new"),
    path("g/<slug:slug>/workdays/<int:pk>/", workdays.workday, name="workday"),
    path("g/<slug:slug>/workdays/<int:pk>/edit/", workdays.workday_edit, name="workday_edit"),
    path("g/<slug:slug>/workdays/<int:pk>/hold/", workdays.workday_hold, name="workday_hold"),
    path("g/<slug:slug>/workdays/<int:pk>/sheet/", workdays.workday_sheet, name="workday_sheet"),
    path("g/<slug:slug>/tasks/<int:pk>/join/", workdays.task_join, name="task_join"),
    path("g/<slug:slug>/tasks/<int:pk>/leave/", workdays.task_leave, name="task_leave"),
    path("g/<slug:slug>/make-up/", make_up.make_up_jobs, name="make_up_jobs"),
    path("g/<slug:slug>/make-up/new/", make_up.make_up_job_new, name="make_up_job_new"),
    path("g/<slug:slug>/make-up/<int:pk>/edit/", make_up.make_up_job_edit, name="make_up_job_edit"),
    path("g/<slug:slug>/make-up/<int:pk>/close/", make_up.make_up_job_close, name="make_up_job_close"),
    path("g/<slug:slug>/make-up/<int:pk>/done/", make_up.make_up_job_done, name="make_up_job_done"),
    path("g/<slug:slug>/hours/", hours.hours, name="hours"),
    path("g/<slug:slug>/hours/own/", hours.hours_own, name="hours_own"),
    path("g/<slug:slug>/hours/<int:pk>/", hours.hours_person, name="hours_person"),
    path("g/<slug:slug>/hours/<int:pk>/excuse/<int:season_pk>/", hours.hours_excuse, name="hours_excuse"),
    path("g/<slug:slug>/hours/done/<int:pk>/remove/", hours.hours_remove, name="hours_remove"),
    path("g/<slug:slug>/hours/done/<int:pk>/restore/", hours.hours_restore, name="hours_restore"),
]
care_pages = [
    path("g/<slug:slug>/care/", care.care, name="care"),
    path("g/<slug:slug>/care/begin/", care.care_begin, name="care_begin"),
    path("g/<slug:slug>/care/rounds/<int:pk>/", care.care_round, name="care_round"),
    path("g/<slug:slug>/care/rounds/<int:pk>/<int:plot_pk>/", care.care_stop, name="care_stop"),
    path(
        "g/<slug:slug>/care/photos/<uuid:key>/<slug:size>.jpg",
        finding_photos.finding_photo,
        name="finding_photo",
    ),
    path(
        "g/<slug:slug>/care/photos/<uuid:key>/remove/",
        finding_photos.finding_photo_remove,
        name="finding_photo_remove",
    ),
    path(
        "g/<slug:slug>/care/photos/<uuid:key>/restore/",
        finding_photos.finding_photo_restore,
        name="finding_photo_restore",
    ),
    path("g/<slug:slug>/care/matters/", care_matters.matters, name="matters"),
    path("g/<slug:slug>/care/matters/new/", care_matters.matter_new, name="matter_new"),
    path("g/<slug:slug>/care/matters/<int:pk>/", care_matters.matter, name="matter"),
    path("g/<slug:slug>/care/matters/<int:pk>/<slug:kind>/", care_matters.matter_step, name="matter_step"),
    path(
        "g/<slug:slug>/care/matters/<int:pk>/steps/<int:step_pk>/back/",
        care_matters.matter_step_back,
        name="matter_step_back",
    ),
    path("g/<slug:slug>/away/", pauses.pauses, name="pauses"),
    path("g/<slug:slug>/away/<int:assignment_pk>/", pauses.pause_new, name="pause_new"),
    path("g/<slug:slug>/away/<int:assignment_pk>/back/", pauses.pause_end, name="pause_end"),
]
notice_pages = [
    path("g/<slug:slug>/notices/", notices.notices, name="notices"),
    path("g/<slug:slug>/notices/new/", notices.notice_new, name="notice_new"),
    path("g/<slug:slug>/notices/<int:pk>/", notices.notice, name="notice"),
    path("g/<slug:slug>/notices/<int:pk>/edit/", notices.notice_edit, name="notice_edit"),
    path("g/<slug:slug>/notices/<int:pk>/give/", notices.notice_give, name="notice_give"),
    path(
        "g/<slug:slug>/notices/<int:pk>/reached/<int:delivery_pk>/",
        notices.delivery_mark,
        name="delivery_mark",
    ),
]
date_pages = [
    path("g/<slug:slug>/dates/", dates.dates, name="dates"),
    path("g/<slug:slug>/dates/new/", dates.date_new, name="date_new"),
    path("g/<slug:slug>/dates/<int:pk>/", dates.date_edit, name="date_edit"),
    path("g/<slug:slug>/dates/<int:pk>/remove/", dates.date_remove, name="date_remove"),
    path("g/<slug:slug>/dates/<int:pk>/restore/", dates.date_restore, name="date_restore"),
    path("g/<slug:slug>/dates/copy/<int:year>/", dates.dates_copy, name="dates_copy"),
    path("g/<slug:slug>/dates.ics", dates.dates_ics, name="dates_ics"),
]

waiting_pages = [
    path("join/<slug:slug>/", joining.join, name="join"),
    path("place/<str:token>/", joining.place, name="place"),
    path("place/<str:token>/offer/<int:pk>/", joining.place_offer, name="place_offer"),
    path("place/<str:token>/still/<int:pk>/", joining.place_interest, name="place_interest"),
    path("place/<str:token>/leave/", joining.place_leave, name="place_leave"),
    path("g/<slug:slug>/waiting/", waiting.waiting, name="waiting"),
    path("g/<slug:slug>/waiting/mine/", joining.waiting_own, name="waiting_own"),
    path("g/<slug:slug>/waiting/new/", waiting.waiting_new, name="waiting_new"),
    path("g/<slug:slug>/waiting/left/", waiting.waiting_left, name="waiting_left"),
    path("g/<slug:slug>/waiting/<int:pk>/", waiting.waiting_entry, name="waiting_entry"),
    path("g/<slug:slug>/waiting/<int:pk>/edit/", waiting.waiting_edit, name="waiting_edit"),
    path("g/<slug:slug>/waiting/<int:pk>/leave/", waiting.waiting_leave, name="waiting_leave"),
    path("g/<slug:slug>/waiting/<int:pk>/return/", waiting.waiting_return, name="waiting_return"),
    path("g/<slug:slug>/waiting/choices/", waiting.choices, name="choices"),
    path("g/<slug:slug>/waiting/choices/new/", waiting.choice_new, name="choice_new"),
    path("g/<slug:slug>/waiting/choices/<int:pk>/", waiting.choice_edit, name="choice_edit"),
    path("g/<slug:slug>/offers/new/", offers.offer_new, name="offer_new"),
    path("g/<slug:slug>/offers/<int:pk>/", offers.offer, name="offer"),
    path("g/<slug:slug>/offers/<int:pk>/answer/", offers.offer_answer, name="offer_answer"),
    path("g/<slug:slug>/offers/<int:pk>/send/", offers.offer_send, name="offer_send"),
    path("g/<slug:slug>/offers/<int:pk>/told/", offers.offer_told, name="offer_told"),
    path("g/<slug:slug>/offers/<int:pk>/extend/", offers.offer_extend, name="offer_extend"),
    path("g/<slug:slug>/offers/<int:pk>/withdraw/", offers.offer_withdraw, name="offer_withdraw"),
    path("g/<slug:slug>/waiting/asked/new/", interest.interest_new, name="interest_new"),
    path("g/<slug:slug>/waiting/asked/<int:pk>/", interest.interest, name="interest"),
    path(
        "g/<slug:slug>/waiting/asked/<int:pk>/<int:answer_pk>/",
        interest.interest_answer,
        name="interest_answer",
    ),
    path("g/<slug:slug>/waiting/asked/<int:pk>/send/", interest.interest_send, name="interest_send"),
    path("g/<slug:slug>/waiting/asked/<int:pk>/close/", interest.interest_close, name="interest_close"),
]

urlpatterns = [
    path(
        "",
        include(
            (
                way_in
                + gardens
                + plots
                + map_pages
                + members
                + turn_pages
                + agreement_pages
                + work_pages
                + date_pages
                + care_pages
                + notice_pages
                + waiting_pages,
                "plots",
            )
        ),
    ),
    path("", include("crops.urls")),
    path("", include("schedules.urls")),
]
