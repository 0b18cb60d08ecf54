"""Addresses of this app."""

from django.urls import path

from clinic.trends import views

app_name = "trends"
urlpatterns = [
    path("<uuid:stoma>/", views.stoma, name="stoma"),
    path("<uuid:stoma>/tried/", views.tried, name="tried"),
]
