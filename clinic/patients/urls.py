from django.urls import path

from clinic.patients.views import (
    clinical,
    contacts,
    finding,
    known,
    people,
    registering,
    restricted,
)

app_name = "patients"
#: The record itself is a page of ``patient_record``, which puts these beside it.
urlpatterns = [
    path("", finding.find_page, name="find"),
    path("results/", finding.results, name="results"),
    path("register/", registering.register, name="register"),
    path("<uuid:patient>/correct/", people.correct, name="correct"),
    path("<uuid:patient>/open/", restricted.open_restricted, name="open_restricted"),
    path("<uuid:patient>/restrict/", restricted.restrict, name="restrict"),
    path("<uuid:patient>/lift-restriction/", restricted.lift, name="lift_restriction"),
    path("<uuid:patient>/contacts/", contacts.contacts, name="contacts"),
    path(
        "<uuid:patient>/sensitivities/asked/",
        clinical.sensitivities_asked,
        name="sensitivities_asked",
    ),
    path("<uuid:patient>/sensitivities/add/", clinical.sensitivity_add, name="sensitivity_add"),
    path(
        "<uuid:patient>/sensitivities/<uuid:sensitivity>/remove/",
        clinical.sensitivity_remove,
        name="sensitivity_remove",
    ),
    path("<uuid:patient>/stomas/add/", clinical.stoma_add, name="stoma_add"),
    path(
        "<uuid:patient>/stomas/<uuid:stoma>/correct/", clinical.stoma_correct, name="stoma_correct"
    ),
    path("<uuid:patient>/stomas/<uuid:stoma>/close/", clinical.stoma_close, name="stoma_close"),
    path("<uuid:patient>/stomas/<uuid:stoma>/known/", known.known_agree, name="known_agree"),
    path("<uuid:patient>/known/<uuid:known>/end/", known.known_end, name="known_end"),
]
