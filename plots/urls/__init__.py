"""Project-wide: every address of the installation; the one place of plots that looks up to the other apps.

Each part lists its own: `in_garden` what follows `g/<slug:slug>/`, `urlpatterns` all else.
"""

from django.urls import include, path

from plots.urls import care, gardens, ground, people, turn, waiting, work
from schedules.views import care as care_with_logs
from schedules.views import ground as plots_list

# About the ground, but told with what logs say of it.
with_logs = [
    path("plots/", plots_list.plots, name="plots"),
    path("care/", care_with_logs.care, name="care"),
    path("care/begin/", care_with_logs.care_begin, name="care_begin"),
    path("care/rounds/<int:pk>/", care_with_logs.care_round, name="care_round"),
    path("care/rounds/<int:pk>/<int:plot_pk>/", care_with_logs.care_stop, name="care_stop"),
]
in_garden = [
    *with_logs,
    *gardens.in_garden,
    *ground.in_garden,
    *people.in_garden,
    *turn.in_garden,
    *work.in_garden,
    *care.in_garden,
    *waiting.in_garden,
]
everywhere = [*gardens.urlpatterns, *people.urlpatterns, *waiting.urlpatterns]
urlpatterns = [
    path("", include(([*everywhere, path("g/<slug:slug>/", include(in_garden))], "plots"))),
    path("", include("crops.urls")),
    path("", include("schedules.urls")),
]
