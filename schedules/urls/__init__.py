"""Addresses of the schedules app."""

from django.urls import path

from schedules.views import (
    cards,
    choosing,
    climate,
    diary,
    feed,
    figures,
    frost,
    hand_over,
    lessons,
    letter,
    logs,
    measures,
    own_data,
    paper_lines,
    pests,
    photos,
    plan,
    print_table,
    printed,
    readings,
    set_up,
    shifts,
    stakes,
    stations,
    tonight,
    water,
    week,
    when,
    workshops,
)

app_name = "schedules"
weeks = [
    path("g/<slug:slug>/week/", week.week, name="week"),
    path("g/<slug:slug>/when/", when.when, name="when"),
    path("g/<slug:slug>/when/<slug:crop>/", when.when_crop, name="when_crop"),
    path("g/<slug:slug>/when/<slug:crop>/chance/", choosing.chance, name="chance"),
    path("g/<slug:slug>/fits/", choosing.fits, name="fits"),
    path("g/<slug:slug>/nerve/", choosing.nerve, name="nerve"),
]
plans = [
    path("g/<slug:slug>/plots/<int:pk>/plan/", plan.plan, name="plan"),
    path("g/<slug:slug>/plots/<int:pk>/plan/add/", plan.planting_add, name="planting_add"),
    path("g/<slug:slug>/plots/<int:pk>/plan/add/<slug:crop>/", plan.planting_new, name="planting_new"),
    path("g/<slug:slug>/plantings/<int:pk>/", plan.planting, name="planting"),
    path("g/<slug:slug>/plantings/<int:pk>/edit/", plan.planting_edit, name="planting_edit"),
    path("g/<slug:slug>/plantings/<int:pk>/remove/", plan.planting_remove, name="planting_remove"),
    path("g/<slug:slug>/plantings/<int:pk>/restore/", plan.planting_restore, name="planting_restore"),
]
letters = [
    path("g/<slug:slug>/letter/", letter.letter, name="letter"),
]
people = [
    path("account/data.zip", own_data.own_data, name="own_data"),
    path("g/<slug:slug>/members/<int:pk>/card.pdf", cards.invitation_card, name="invitation_card"),
    path("g/<slug:slug>/hand-over/", hand_over.pack, name="hand_over"),
]
feeds = [
    path("g/<slug:slug>/feed/", feed.feed, name="feed"),
    path("g/<slug:slug>/feed/make/", feed.feed_make, name="feed_make"),
    path("g/<slug:slug>/feed/revoke/", feed.feed_revoke, name="feed_revoke"),
    path("feed/<str:token>.ics", feed.feed_ics, name="feed_ics"),
]
frost_risk = [
    path("g/<slug:slug>/setup/frost/", set_up.frost, name="set_up_frost"),
    path("g/<slug:slug>/frost/", frost.frost, name="frost"),
    path("g/<slug:slug>/frost/source/", climate.source, name="frost_source"),
    path("g/<slug:slug>/frost/source/record/", climate.record_import, name="frost_import"),
    path("g/<slug:slug>/frost/source/record/<int:pk>/remove/", climate.record_remove, name="frost_remove"),
    path("g/<slug:slug>/frost/source/table/", climate.table, name="frost_table"),
    path("g/<slug:slug>/frost/source/mean/", climate.mean, name="frost_mean"),
    path("g/<slug:slug>/frost/source/offset/", stations.offset, name="frost_offset"),
    path("g/<slug:slug>/frost/source/offset/accept/", stations.offset_accept, name="offset_accept"),
    path("g/<slug:slug>/frost/source/stations/", stations.stations, name="stations"),
    path("g/<slug:slug>/frost/source/years/", stations.years_choose, name="frost_years"),
    path("g/<slug:slug>/frost/year/", lessons.frost_year, name="frost_year"),
    path("g/<slug:slug>/frost/source/use/", climate.use, name="frost_use"),
]
own_climate = [
    path("g/<slug:slug>/frost/tonight/", tonight.tonight, name="frost_tonight"),
    path("g/<slug:slug>/frost/tonight/notice/", tonight.tonight_notice, name="frost_notice"),
    path("g/<slug:slug>/frost/lost/", tonight.losses, name="losses"),
    path("g/<slug:slug>/frost/before/", shifts.dates_before, name="dates_before"),
    path("g/<slug:slug>/frost/before/<int:pk>/", shifts.dates_moved, name="dates_moved"),
    path("g/<slug:slug>/readings/", readings.readings, name="readings"),
    path("g/<slug:slug>/readings/all/", readings.readings_all, name="readings_all"),
    path("g/<slug:slug>/readings/logger/", readings.readings_import, name="readings_import"),
    path("g/<slug:slug>/readings/logger/remove/", readings.logger_remove, name="logger_remove"),
    path("g/<slug:slug>/readings/<int:pk>/remove/", readings.reading_remove, name="reading_remove"),
    path("g/<slug:slug>/taught/", lessons.taught, name="taught"),
    path("g/<slug:slug>/taught/<int:pk>/", lessons.taught_set, name="taught_set"),
]
stake_pages = [
    path("at/<str:code>/", stakes.at_plot, name="at_plot"),
]
log_pages = [
    path("g/<slug:slug>/log/", logs.log_new, name="log_new"),
    path("g/<slug:slug>/log/from-paper/", paper_lines.type_in, name="type_logs"),
    path("g/<slug:slug>/logs/<int:pk>/", logs.log, name="log"),
    path("g/<slug:slug>/logs/<int:pk>/edit/", logs.log_edit, name="log_edit"),
    path("g/<slug:slug>/logs/<int:pk>/remove/", logs.log_remove, name="log_remove"),
    path("g/<slug:slug>/logs/<int:pk>/restore/", logs.log_restore, name="log_restore"),
]
reading_back = [
    path("g/<slug:slug>/diary/", diary.diary, name="diary"),
    path("g/<slug:slug>/figures/", figures.figures, name="figures"),
    path("g/<slug:slug>/plots/<int:pk>/diary/", diary.plot_diary, name="plot_diary"),
    path("g/<slug:slug>/plots/<int:pk>/glance/", figures.glance, name="glance"),
]
measure_pages = [
    path("g/<slug:slug>/measures/", measures.measures, name="measures"),
    path("g/<slug:slug>/measures/hose/", measures.measure_hose_new, name="measure_hose"),
    path("g/<slug:slug>/measures/bunch/", measures.measure_bunch_new, name="measure_bunch"),
    path("g/<slug:slug>/measures/can/", measures.measure_can, name="measure_can"),
    path(
        "g/<slug:slug>/measures/<slug:kind>/<int:pk>/remove/", measures.measure_remove, name="measure_remove"
    ),
    path(
        "g/<slug:slug>/measures/<slug:kind>/<int:pk>/restore/",
        measures.measure_restore,
        name="measure_restore",
    ),
]
photo_pages = [
    path("g/<slug:slug>/log/<uuid:key>/photos/", photos.log_photo_add, name="log_photo_add"),
    path("g/<slug:slug>/log/photos/<uuid:key>/", photos.log_photo_edit, name="log_photo_edit"),
    path("g/<slug:slug>/log/photos/<uuid:key>/remove/", photos.log_photo_remove, name="log_photo_remove"),
    path("g/<slug:slug>/log/photos/<uuid:key>/restore/", photos.log_photo_restore, name="log_photo_restore"),
    path("g/<slug:slug>/log/photos/<uuid:key>/<slug:size>.jpg", photos.log_photo, name="log_photo"),
]
workshop_pages = [
    path("g/<slug:slug>/workshops/", workshops.workshops, name="workshops"),
    path("g/<slug:slug>/workshops/new/", workshops.workshop_new, name="workshop_new"),
    path("g/<slug:slug>/workshops/<int:pk>/", workshops.workshop, name="workshop"),
    path("g/<slug:slug>/workshops/<int:pk>/edit/", workshops.workshop_edit, name="workshop_edit"),
    path("g/<slug:slug>/workshops/<int:pk>/pack/", workshops.workshop_pack, name="workshop_pack"),
    path("g/<slug:slug>/workshops/<int:pk>/came/", workshops.workshop_came, name="workshop_came"),
    path("g/<slug:slug>/workshops/<int:pk>/remove/", workshops.workshop_remove, name="workshop_remove"),
    path("g/<slug:slug>/workshops/<int:pk>/restore/", workshops.workshop_restore, name="workshop_restore"),
]
waters = [
    path("g/<slug:slug>/water/", water.waters, name="waters"),
    path("g/<slug:slug>/plots/<int:pk>/water/", water.water, name="water"),
    path("g/<slug:slug>/rain/", water.rain, name="rain"),
    path("g/<slug:slug>/rain/<int:pk>/remove/", water.rain_remove, name="rain_remove"),
]
pests_and_damage = [
    path("g/<slug:slug>/pests/", pests.guidance, name="guidance"),
    path("g/<slug:slug>/pests/new/", pests.guidance_new, name="guidance_new"),
    path("g/<slug:slug>/pests/<int:pk>/", pests.guidance_edit, name="guidance_edit"),
    path("g/<slug:slug>/pests/<int:pk>/remove/", pests.guidance_remove, name="guidance_remove"),
    path("g/<slug:slug>/pests/<int:pk>/restore/", pests.guidance_restore, name="guidance_restore"),
    path("g/<slug:slug>/pests/seen/", pests.sightings, name="sightings"),
    path("g/<slug:slug>/pests/seen/<int:pk>/", pests.sighting, name="sighting"),
    path("g/<slug:slug>/pests/seen/<int:pk>/sure/", pests.sighting_sure, name="sighting_sure"),
    path("g/<slug:slug>/pests/seen/<int:pk>/word/", pests.sighting_word, name="sighting_word"),
    path("g/<slug:slug>/pests/used/", pests.treatments, name="treatments"),
]
printing = [
    path("g/<slug:slug>/print/", print_table.table, name="print_table"),
    path("g/<slug:slug>/print/before/", printed.printed, name="printed"),
    path("g/<slug:slug>/print/before/<uuid:key>/", printed.printing, name="printing"),
    path("g/<slug:slug>/print/before/<uuid:key>.pdf", printed.printing_pdf, name="printing_pdf"),
    path("g/<slug:slug>/print/before/<uuid:key>/next/", printed.printing_next, name="printing_next"),
    path("g/<slug:slug>/print/before/<uuid:key>/remove/", printed.printing_remove, name="printing_remove"),
    path("g/<slug:slug>/print/<slug:code>/", print_table.print_kind, name="print_kind"),
    path("g/<slug:slug>/print/<slug:code>.<slug:form>", print_table.print_file, name="print_file"),
]
urlpatterns = [
    *printing,
    *waters,
    *pests_and_damage,
    *workshop_pages,
    *stake_pages,
    *log_pages,
    *reading_back,
    *measure_pages,
    *photo_pages,
    *letters,
    *weeks,
    *plans,
    *people,
    *feeds,
    *frost_risk,
    *own_climate,
]
