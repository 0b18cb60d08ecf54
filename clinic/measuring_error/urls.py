from django.urls import path

from clinic.measuring_error import views

app_name = "measuring_error"
urlpatterns = [
    path("", views.clinic, name="clinic"),
    path("of/<uuid:assessment>/", views.chart, name="chart"),
    path("repeats/<uuid:repeat>/", views.show, name="show"),
    path("repeats/<uuid:repeat>/withdraw/", views.withdraw, name="withdraw"),
]
