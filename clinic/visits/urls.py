"""Begin, extend, discard and add to visits; photos and history."""

from django.urls import path

from clinic.visits.views import addenda, change_history, photos, start
from clinic.visits.wear_log import views as wear_log_views

app_name = "visits"
urlpatterns = [
    path("start/<uuid:stoma>/", start.start, name="start"),
    path("<uuid:visit>/also/<uuid:stoma>/", start.also, name="also"),
    path("<uuid:visit>/discard/", start.discard, name="discard"),
    path("<uuid:visit>/addendum/", addenda.add, name="addendum"),
    path("<uuid:visit>/history/", change_history.history, name="history"),
    path("chart/<uuid:assessment>/photos/", photos.add, name="photo_add"),
    path("photos/<uuid:photo>/", photos.show, name="photo"),
    path("photos/<uuid:photo>/small/", photos.thumbnail, name="photo_small"),
    path("photos/<uuid:photo>/remove/", photos.remove, name="photo_remove"),
    path("wear-log/<uuid:stoma>/", wear_log_views.show, name="wear_log"),
    path("wear-log/<uuid:stoma>/save/", wear_log_views.save, name="wear_save"),
    path("wear-log/<uuid:stoma>/read/", wear_log_views.read, name="wear_read"),
]
