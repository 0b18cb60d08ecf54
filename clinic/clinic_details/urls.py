"""The clinic's details."""

from django.urls import path

from clinic.clinic_details import views

app_name = "clinic_details"
urlpatterns = [
    path("", views.edit, name="edit"),
    path("holidays/add/", views.holiday_add, name="holiday_add"),
    path("holidays/<uuid:holiday>/remove/", views.holiday_remove, name="holiday_remove"),
]
