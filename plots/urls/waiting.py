"""Addresses: the waiting list, its offers and yearly question."""

from django.urls import path

from plots.views import interest, joining, offers, waiting

urlpatterns = [
    path("join/<slug:slug>/", joining.join, name="join"),
    path("place/<str:token>/", joining.place, name="place"),
    path("place/<str:token>/offer/<int:pk>/", joining.place_offer, name="place_offer"),
    path("place/<str:token>/still/<int:pk>/", joining.place_interest, name="place_interest"),
    path("place/<str:token>/leave/", joining.place_leave, name="place_leave"),
]
in_garden = [
    path("waiting/", waiting.waiting, name="waiting"),
    path("waiting/mine/", joining.waiting_own, name="waiting_own"),
    path("waiting/new/", waiting.waiting_new, name="waiting_new"),
    path("waiting/left/", waiting.waiting_left, name="waiting_left"),
    path("waiting/<int:pk>/", waiting.waiting_entry, name="waiting_entry"),
    path("waiting/<int:pk>/edit/", waiting.waiting_edit, name="waiting_edit"),
    path("waiting/<int:pk>/leave/", waiting.waiting_leave, name="waiting_leave"),
    path("waiting/<int:pk>/return/", waiting.waiting_return, name="waiting_return"),
    path("waiting/choices/", waiting.choices, name="choices"),
    path("waiting/choices/new/", waiting.choice_new, name="choice_new"),
    path("waiting/choices/<int:pk>/", waiting.choice_edit, name="choice_edit"),
    path("offers/new/", offers.offer_new, name="offer_new"),
    path("offers/<int:pk>/", offers.offer, name="offer"),
    path("offers/<int:pk>/answer/", offers.offer_answer, name="offer_answer"),
    path("offers/<int:pk>/send/", offers.offer_send, name="offer_send"),
    path("offers/<int:pk>/told/", offers.offer_told, name="offer_told"),
    path("offers/<int:pk>/extend/", offers.offer_extend, name="offer_extend"),
    path("offers/<int:pk>/withdraw/", offers.offer_withdraw, name="offer_withdraw"),
    path("waiting/asked/new/", interest.interest_new, name="interest_new"),
    path("waiting/asked/<int:pk>/", interest.interest, name="interest"),
    path("waiting/asked/<int:pk>/<int:answer_pk>/", interest.interest_answer, name="interest_answer"),
    path("waiting/asked/<int:pk>/send/", interest.interest_send, name="interest_send"),
    path("waiting/asked/<int:pk>/close/", interest.interest_close, name="interest_close"),
]
