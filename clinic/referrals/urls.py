"""Questions to colleagues and their answers."""

from django.urls import path

from clinic.referrals import views

app_name = "referrals"
urlpatterns = [
    path("visits/chart/<uuid:assessment>/refer/", views.refer, name="refer"),
    path("referrals/", views.referrals, name="referrals"),
    path("referrals/<uuid:referral>/", views.referral, name="referral"),
    path("referrals/<uuid:referral>/answer/", views.answer, name="answer"),
    path("referrals/<uuid:referral>/received/", views.received, name="received"),
]
