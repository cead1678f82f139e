"""Addresses of the crops."""

from django.urls import include, path

from crops.views import crops, varieties

app_name = "crops"

one_variety = [
    path("", varieties.variety, name="variety"),
    path("edit/", varieties.variety_edit, name="variety_edit"),
    path("remove/", varieties.variety_remove, name="variety_remove"),
]
one_crop = [
    path("", crops.crop, name="crop"),
    path("edit/", crops.crop_edit, name="crop_edit"),
    path("remove/", crops.crop_remove, name="crop_remove"),
    path("varieties/new/", varieties.variety_new, name="variety_new"),
    path("varieties/<int:pk>/", include(one_variety)),
]
urlpatterns = [
    path("g/<slug:slug>/crops/", crops.crops, name="crops"),
    path("g/<slug:slug>/crops/new/", crops.crop_new, name="crop_new"),
    path("g/<slug:slug>/crops/<slug:crop_slug>/", include(one_crop)),
]
