"""Project-wide: every address of the installation; it includes those of the other apps by name.

Each part lists its own: `in_garden` what follows `g/<slug:slug>/`, `urlpatterns` all else.
"""

from django.urls import include, path

from plots.urls import care, gardens, ground, people, turn, waiting, work

in_garden = [
    path("", include("schedules.urls.with_logs")),
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
