"""Project-wide: every address of the installation; the one file of plots that looks up to the other apps."""

from django.urls import include, path

urlpatterns = [
    path("", include("crops.urls")),
    path("", include("schedules.urls")),
]
