"""Where each app lives. Everything needs a sign-in unless its view says otherwise."""

from django.urls import include, path

from clinic.accounts import errors

urlpatterns = [
    path("", include("clinic.clinic_day.urls")),
    path("", include("clinic.charting.urls")),
    path("", include("clinic.referrals.urls")),
    path("", include("clinic.follow_up.urls")),
    path("", include("clinic.plans.urls")),
    path("site-marking/", include("clinic.site_marking.urls")),
    path("teaching/", include("clinic.teaching.urls")),
    path("complications/", include("clinic.complications.urls")),
    path("tried-before/", include("clinic.trials.urls")),
    path("patients/", include("clinic.patient_record.urls")),
    path("tasks/", include("clinic.tasks.urls")),
    path("visits/", include("clinic.visits.urls")),
    path("trends/", include("clinic.trends.urls")),
    path("documents/", include("clinic.documents.urls")),
    path("measures/", include("clinic.measures.urls")),
    path("patient-answers/", include("clinic.patient_answers.urls")),
    path("measuring-error/", include("clinic.measuring_error.urls")),
    path("accounts/", include("clinic.accounts.urls")),
    path("clinic/", include("clinic.clinic_details.urls")),
    path("audit/", include("clinic.audit_trail.urls")),
    path("sign-in/", include("clinic.accounts.sign_in_urls")),
]

handler400 = errors.bad_request
handler403 = errors.permission_denied
handler404 = errors.not_found
handler500 = errors.server_error
