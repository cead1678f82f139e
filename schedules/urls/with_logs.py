"""Addresses that the plots of a garden have, among those of `plots`, told with what logs say of them."""

from django.urls import path

from schedules.views import care, ground

urlpatterns = [
    path("plots/", ground.plots, name="plots"),
    path("care/", care.care, name="care"),
    path("care/begin/", care.care_begin, name="care_begin"),
    path("care/rounds/<int:pk>/", care.care_round, name="care_round"),
    path("care/rounds/<int:pk>/<int:plot_pk>/", care.care_stop, name="care_stop"),
]
