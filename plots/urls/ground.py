"""Addresses: plots and the site map."""

from django.urls import path

from plots.views import ground, site

in_garden = [
    path("plots/new/", ground.plot_new, name="plot_new"),
    path("plots/<int:pk>/", ground.plot, name="plot"),
    path("plots/<int:pk>/edit/", ground.plot_edit, name="plot_edit"),
    path("plots/<int:pk>/retire/", ground.plot_retire, name="plot_retire"),
    path("plots/<int:pk>/restore/", ground.plot_restore, name="plot_restore"),
    path("plots/<int:pk>/stake/renew/", ground.stake_renew, name="stake_renew"),
    path("plots/<int:pk>/holder/", ground.plot_holder, name="plot_holder"),
    path("plots/<int:pk>/holder/<int:assignment_pk>/end/", ground.plot_free, name="plot_free"),
    path("map/", site.site_map, name="site_map"),
    path("map/site/", site.site_edit, name="site_edit"),
    path("map/rows/", site.site_rows, name="site_rows"),
    path("map/arrange/", site.site_arrange, name="site_arrange"),
    path("map/walk/", site.site_walk, name="site_walk"),
    path("map/things/new/", site.feature_new, name="feature_new"),
    path("map/things/<int:pk>/", site.feature_edit, name="feature_edit"),
    path("map/things/<int:pk>/remove/", site.feature_remove, name="feature_remove"),
]
