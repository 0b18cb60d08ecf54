"""Tasks."""

from django.urls import path

from clinic.tasks import views

app_name = "tasks"
urlpatterns = [
    path("patients/<uuid:patient>/add/", views.add, name="add"),
    path("<uuid:task>/done/", views.done, name="done"),
    path("<uuid:task>/not-done/", views.not_done, name="not_done"),
]
