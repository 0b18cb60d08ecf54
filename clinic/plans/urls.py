"""The list of rules, and what would change a recommendation."""

from django.urls import path

from clinic.plans.views import rules, suspected, what_if

app_name = "plans"
urlpatterns = [
    path("visits/chart/<uuid:assessment>/what-if/<slug:key>/", what_if.what_if, name="what_if"),
    path("visits/<uuid:assessment>/suspected/", suspected.suspected, name="suspected"),
    path("rules/", rules.rules, name="rules"),
]
