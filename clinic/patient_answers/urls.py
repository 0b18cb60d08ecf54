from django.urls import path

from clinic.patient_answers import views

app_name = "patient_answers"
urlpatterns = [
    path("of/<uuid:assessment>/", views.ask, name="ask"),
    path("<uuid:answers>/withdraw/", views.withdraw, name="withdraw"),
]
