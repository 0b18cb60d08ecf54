from django.urls import path

from clinic.complications import views

app_name = "complications"
urlpatterns = [
    path("of/<uuid:stoma>/", views.of_stoma, name="of_stoma"),
    path("of/<uuid:stoma>/add/", views.add, name="add"),
    path("<uuid:complication>/correct/", views.correct, name="correct"),
    path("<uuid:complication>/remove/", views.remove, name="remove"),
]
