"""The visit page: charting a draft, settling two versions, reading a visit."""

from django.urls import path

from clinic.charting.views import chart, conflict, photo_measure, visit

app_name = "charting"
urlpatterns = [
    path("visits/<uuid:visit>/", visit.visit, name="visit"),
    path("visits/chart/<uuid:assessment>/", chart.chart, name="chart"),
    path("visits/chart/<uuid:assessment>/save/", chart.save, name="save"),
    path("visits/chart/<uuid:assessment>/conflict/", conflict.conflict, name="conflict"),
    path("visits/photos/<uuid:photo>/measure/", photo_measure.measure_photo, name="measure_photo"),
    path("visits/photos/<uuid:photo>/propose/", photo_measure.propose_marks, name="propose_marks"),
]
