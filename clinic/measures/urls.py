"""Addresses of this app."""

from django.urls import path

from clinic.measures import views

app_name = "measures"
urlpatterns = [
    path("", views.clinic, name="clinic"),
    path("csv", views.csv, name="csv"),
]
