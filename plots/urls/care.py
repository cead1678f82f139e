"""Addresses: care rounds, matters, pauses and notices."""

from django.urls import path

from plots.views import care_lists, care_matters, finding_photos, notices, pauses, stand_ins

in_garden = [
    path("care/rounds/", care_lists.care_rounds, name="care_rounds"),
    path("care/pauses/", care_lists.care_pauses, name="care_pauses"),
    path("care/photos/<uuid:key>/<slug:size>.jpg", finding_photos.finding_photo, name="finding_photo"),
    path("care/photos/<uuid:key>/remove/", finding_photos.finding_photo_remove, name="finding_photo_remove"),
    path(
        "care/photos/<uuid:key>/restore/", finding_photos.finding_photo_restore, name="finding_photo_restore"
    ),
    path("care/matters/", care_matters.matters, name="matters"),
    path("care/matters/new/", care_matters.matter_new, name="matter_new"),
    path("care/matters/<int:pk>/", care_matters.matter, name="matter"),
    path("care/matters/<int:pk>/<slug:kind>/", care_matters.matter_step, name="matter_step"),
    path(
        "care/matters/<int:pk>/steps/<int:step_pk>/back/",
        care_matters.matter_step_back,
        name="matter_step_back",
    ),
    path("away/", pauses.pauses, name="pauses"),
    path("away/<int:assignment_pk>/", pauses.pause_new, name="pause_new"),
    path("away/<int:assignment_pk>/back/", pauses.pause_end, name="pause_end"),
    path("neighbours/", stand_ins.stand_ins, name="stand_ins"),
    path("neighbours/<int:pk>/end/", stand_ins.stand_in_end, name="stand_in_end"),
    path("notices/", notices.notices, name="notices"),
    path("notices/new/", notices.notice_new, name="notice_new"),
    path("notices/<int:pk>/", notices.notice, name="notice"),
    path("notices/<int:pk>/edit/", notices.notice_edit, name="notice_edit"),
    path("notices/<int:pk>/give/", notices.notice_give, name="notice_give"),
    path("notices/<int:pk>/reached/<int:delivery_pk>/", notices.delivery_mark, name="delivery_mark"),
]
