"""The day of the next visit."""

from django.urls import path

from clinic.follow_up import views

app_name = "follow_up"
urlpatterns = [
    path("visits/chart/<uuid:assessment>/next/", views.reschedule, name="reschedule"),
]
