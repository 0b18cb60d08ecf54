from django.urls import path

from clinic.audit_trail import restricted_views
from clinic.audit_trail import views as audit_trail_views

app_name = "audit_trail"
urlpatterns = [
    path("", audit_trail_views.log, name="log"),
    path("restricted/", restricted_views.restricted, name="restricted"),
]
