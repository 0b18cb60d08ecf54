"""What is printed."""

from django.urls import path

from clinic.documents import views

app_name = "documents"
urlpatterns = [
    path("care-sheet/<uuid:assessment>/", views.care_sheet, name="care_sheet"),
]
