from django.urls import path

from clinic.teaching import views

app_name = "teaching"
urlpatterns = [
    path("<uuid:stoma>/", views.show, name="show"),
    path("<uuid:stoma>/add/", views.add, name="add"),
    path("<uuid:stoma>/add/<uuid:visit>/", views.add, name="add_at_visit"),
    path("entries/<uuid:point>/withdraw/", views.withdraw, name="withdraw"),
]
