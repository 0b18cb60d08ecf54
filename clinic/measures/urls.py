"""Addresses of this app."""

from django.urls import path

from clinic.measures import views

app_name = "measures"
urlpatterns = [
    path("", views.clinic, name="clinic"),
    path("csv", views.csv, name="csv"),
    path("tried", views.what_was_tried, name="tried"),
    path("tried/csv", views.tried_csv, name="tried_csv"),
    path("by-quarter", views.over_time, name="over_time"),
    path("by-quarter/csv", views.over_time_csv, name="over_time_csv"),
    path("people", views.people, name="people"),
]
