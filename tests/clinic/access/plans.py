from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.clinic.plans.making import referred, signed
from tests.factories.visits import AssessmentFactory, PhotoFactory


def draft() -> dict[str, Any]:
    return {"assessment": AssessmentFactory(leaking=True).uuid}


def recommendation() -> dict[str, Any]:
    return {**draft(), "key": "opening"}


def signed_assessment() -> dict[str, Any]:
    return {"assessment": signed().uuid}


def visit() -> dict[str, Any]:
    return {"visit": signed().visit.uuid}


def photo() -> dict[str, Any]:
    return {"photo": PhotoFactory().pk}


def referral() -> dict[str, Any]:
    return {"referral": referred().uuid}


ROWS = {
    "plans:day": Row(Right.SEE_IDENTITY),
    "plans:visit": Row(Right.SEE_CLINICAL, visit),
    "plans:chart": Row(Right.CHART, draft),
    "plans:save": Row(Right.CHART, draft),
    "plans:conflict": Row(Right.CHART, draft),
    "plans:what_if": Row(Right.CHART, recommendation),
    "plans:refer": Row(Right.CHART, draft),
    "plans:reschedule": Row(Right.MOVE_FOLLOW_UP, signed_assessment),
    "plans:measure_photo": Row(Right.CHART, photo),
    "plans:rules": Row(Right.SEE_CLINICAL),
    "plans:referrals": Row(Right.SEE_CLINICAL),
    "plans:referral": Row(Right.SEE_CLINICAL, referral),
    "plans:answer": Row(Right.ANSWER_REFERRAL, referral),
    "plans:received": Row(Right.CHART, referral),
}
