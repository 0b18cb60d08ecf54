from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.clinic.plans.signed_visits import referred
from tests.factories.visits import AssessmentFactory


def draft() -> dict[str, Any]:
    return {"assessment": AssessmentFactory(leaking=True).uuid}


def referral() -> dict[str, Any]:
    return {"referral": referred().uuid}


ROWS = {
    "referrals:refer": Row(Right.CHART, draft),
    "referrals:referrals": Row(Right.SEE_CLINICAL),
    "referrals:referral": Row(Right.SEE_CLINICAL, referral),
    "referrals:answer": Row(Right.ANSWER_REFERRAL, referral),
    "referrals:received": Row(Right.CHART, referral),
}
