"""Addresses of the crops app."""

from django.urls import URLPattern, URLResolver

app_name = "crops"
urlpatterns: list[URLPattern | URLResolver] = []
