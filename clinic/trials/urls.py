from django.urls import path

from clinic.trials import views

app_name = "trials"
urlpatterns = [
    path("of/<uuid:stoma>/add/", views.add, name="add"),
    path("<uuid:trial>/correct/", views.correct, name="correct"),
    path("<uuid:trial>/remove/", views.remove, name="remove"),
]
