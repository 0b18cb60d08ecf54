from typing import Any

from clinic.accounts.permissions import Right
from clinic.site_marking.models import MarkingPhoto
from tests.clinic.access import Row
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.site_marking import MarkedSiteFactory, SiteMarkingFactory


def patient() -> dict[str, Any]:
    return {"patient": PatientFactory().uuid}


def marking() -> dict[str, Any]:
    return {"marking": MarkedSiteFactory().marking.uuid}


def pictured() -> dict[str, Any]:
    one = SiteMarkingFactory()
    MarkingPhoto.objects.create(marking=one, image=b"x", width=1, height=1)
    return {"marking": one.uuid}


def made() -> dict[str, Any]:
    stoma = StomaFactory()
    return {"marking": SiteMarkingFactory(patient=stoma.patient).uuid, "stoma": stoma.uuid}


ROWS = {
    "site_marking:add": Row(Right.CHART, patient),
    "site_marking:show": Row(Right.SEE_CLINICAL, marking),
    "site_marking:photo": Row(Right.SEE_CLINICAL, pictured),
    "site_marking:withdraw": Row(Right.CHART, marking),
    "site_marking:used": Row(Right.CHART, made),
    "documents:site_marking": Row(Right.SEE_CLINICAL, marking),
}
