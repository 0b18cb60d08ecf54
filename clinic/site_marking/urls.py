from django.urls import path

from clinic.site_marking import views

app_name = "site_marking"
urlpatterns = [
    path("of/<uuid:patient>/add/", views.add, name="add"),
    path("<uuid:marking>/", views.show, name="show"),
    path("<uuid:marking>/photo/", views.photo, name="photo"),
    path("<uuid:marking>/withdraw/", views.withdraw, name="withdraw"),
    path("<uuid:marking>/used/<uuid:stoma>/", views.used, name="used"),
]
