"""Words for what happened and for its grade."""

from django.db.models import TextChoices


class Kind(TextChoices):
    """``FROM_VISITS``, below, are found at visits: here they are only given their grade."""

    NECROSIS = "necrosis", "Poor blood flow or necrosis"
    STENOSIS = "stenosis", "Narrowing (stenosis)"
    BLEEDING = "bleeding", "Bleeding"
    OBSTRUCTION = "obstruction", "Obstruction or blockage"
    DEHYDRATION = "dehydration", "Dehydration or high output"
    INFECTION = "infection", "Infection or abscess"
    FISTULA = "fistula", "Fistula beside the stoma"
    EVISCERATION = "evisceration", "Bowel beside the stoma"
    URINE = "urine", "Urinary infection or kidney trouble"
    HERNIA = "hernia", "Parastomal hernia, confirmed"
    RETRACTION = "retraction", "Retraction"
    PROLAPSE = "prolapse", "Prolapse"
    SEPARATION = "separation", "Mucocutaneous separation"
    SKIN = "skin", "Skin damage"


FROM_VISITS = (Kind.RETRACTION, Kind.PROLAPSE, Kind.SEPARATION, Kind.SKIN)


class Grade(TextChoices):
    """Clavien and Dindo's grades, by what had to be done; in our words."""

    I = "I", "I: no drug beyond the basic ones and no procedure; a wound opened at the bedside"  # noqa: E741
    II = "II", "II: other drugs, a blood transfusion, or all feeding by vein"
    IIIA = "IIIa", "IIIa: a procedure without general anaesthesia"
    IIIB = "IIIb", "IIIb: a procedure under general anaesthesia"
    IVA = "IVa", "IVa: life in danger, one organ failed; dialysis counts here"
    IVB = "IVb", "IVb: life in danger, several organs failed"
    V = "V", "V: the patient died of it"


class MeasuredBy(TextChoices):
    CT = "ct", "CT"
    OPERATION = "operation", "At operation"
