"""Addresses of this app."""

from django.urls import URLPattern

app_name = "trends"
urlpatterns: list[URLPattern] = []
