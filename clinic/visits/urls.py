"""Begin, extend, discard and add to visits; photos and history."""

from django.urls import path

from clinic.visits.views import addenda, history, photos, start, wear_log

app_name = "visits"
urlpatterns = [
    path("start/<uuid:stoma>/", start.start, name="start"),
    path("<uuid:visit>/also/<uuid:stoma>/", start.also, name="also"),
    path("<uuid:visit>/discard/", start.discard, name="discard"),
    path("<uuid:visit>/addendum/", addenda.add, name="addendum"),
    path("<uuid:visit>/history/", history.history, name="history"),
    path("chart/<uuid:assessment>/photos/", photos.add, name="photo_add"),
    path("photos/<uuid:photo>/", photos.show, name="photo"),
    path("photos/<uuid:photo>/small/", photos.thumbnail, name="photo_small"),
    path("photos/<uuid:photo>/remove/", photos.remove, name="photo_remove"),
    path("wear-log/<uuid:stoma>/", wear_log.show, name="wear_log"),
    path("wear-log/<uuid:stoma>/save/", wear_log.save, name="wear_save"),
    path("wear-log/<uuid:stoma>/read/", wear_log.read, name="wear_read"),
]
