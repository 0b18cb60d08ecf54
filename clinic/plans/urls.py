"""The start page, the visit page and what hangs on a plan."""

from django.urls import path

from clinic.plans.views import (
    chart,
    conflict,
    day,
    photo_measure,
    referrals,
    reschedule,
    rules,
    visit,
)

app_name = "plans"
urlpatterns = [
    path("", day.clinic_day, name="day"),
    path("visits/<uuid:visit>/", visit.visit, name="visit"),
    path("visits/chart/<uuid:assessment>/", chart.chart, name="chart"),
    path("visits/chart/<uuid:assessment>/save/", chart.save, name="save"),
    path("visits/chart/<uuid:assessment>/conflict/", conflict.conflict, name="conflict"),
    path("visits/chart/<uuid:assessment>/what-if/<slug:key>/", rules.what_if, name="what_if"),
    path("visits/chart/<uuid:assessment>/refer/", referrals.refer, name="refer"),
    path("visits/chart/<uuid:assessment>/next/", reschedule.reschedule, name="reschedule"),
    path("visits/photos/<uuid:photo>/measure/", photo_measure.measure_photo, name="measure_photo"),
    path("rules/", rules.rules, name="rules"),
    path("referrals/", referrals.referrals, name="referrals"),
    path("referrals/<uuid:referral>/", referrals.referral, name="referral"),
    path("referrals/<uuid:referral>/answer/", referrals.answer, name="answer"),
    path("referrals/<uuid:referral>/received/", referrals.received, name="received"),
]
