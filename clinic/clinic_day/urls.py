"""The start page."""

from django.urls import path

from clinic.clinic_day import views

app_name = "clinic_day"
urlpatterns = [
    path("", views.clinic_day, name="day"),
]
