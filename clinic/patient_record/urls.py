"""Everything about one patient. The record page is the first of those addresses, and is above the
app that has the others."""

from django.urls import path

from clinic.patient_record import views
from clinic.patients import urls as patients

app_name = "patients"
urlpatterns = [
    path("<uuid:patient>/", views.show, name="record"),
    *patients.urlpatterns,
]
